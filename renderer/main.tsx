import './design/fonts.ts';
import './design/kit.css';
import './design/tokens.css';
import './design/base.css';
import { createRoot } from 'react-dom/client';
import { App } from './app/App.tsx';
import { remembered } from './parts/remembered.ts';

document.documentElement.dataset.density = remembered('density') ?? 'comfortable';

// A file dropped beside its place would otherwise be opened in place of the program.
for (const event of ['dragover', 'drop']) window.addEventListener(event, e => e.preventDefault());

const root = document.getElementById('root');
if (root) createRoot(root).render(<App />);
