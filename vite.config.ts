/** The screens, built into files that any host can hand out from one folder. */
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: 'renderer',
  base: './',
  plugins: [react()],
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    // Fonts stay files: the hosts allow nothing to be read from inside a style sheet.
    assetsInlineLimit: 0,
    target: 'chrome130',
    chunkSizeWarningLimit: 1200,
    rolldownOptions: {
      // The kit marks its files for servers that we do not have.
      onwarn: (warning, warn) => {
        if (warning.code !== 'MODULE_LEVEL_DIRECTIVE') warn(warning);
      },
    },
  },
});
