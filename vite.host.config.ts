/**
 * Bundles the hosts and the store's two workers: importing the query builder file by file costs each start over a
 * second. Only the database itself and Electron stay outside, because they are not JavaScript alone.
 */
import { cpSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { fileURLToPath } from 'node:url';
import { build, defineConfig, type Plugin } from 'vite';
import { FONT_FILES } from './db/paper/fonts.ts';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The store brings a file up to date with these, so they travel with it. */
function copyMigrations(): Plugin {
  return {
    name: 'copy-migrations',
    writeBundle({ dir }) {
      if (dir) cpSync(here('migrations'), `${dir}/migrations`, { recursive: true });
    },
  };
}

/** Papers are set in the faces of the screens, read from beside the bundle. */
function copyFonts(): Plugin {
  return {
    name: 'copy-fonts',
    writeBundle({ dir }) {
      if (!dir) return;
      for (const [file, folder] of Object.entries(FONT_FILES))
        cpSync(here(`node_modules/${folder}${file}`), `${dir}/fonts/${file}`);
    },
  };
}

/** A sandboxed preload can load no other file and no module: it is bundled by itself, as CommonJS. */
function buildPreload(): Plugin {
  return {
    name: 'build-preload',
    async closeBundle() {
      await build({
        configFile: false,
        publicDir: false,
        logLevel: 'warn',
        build: {
          ssr: here('electron/desktop/preload.ts'),
          outDir: here('dist/host'),
          emptyOutDir: false,
          target: 'node24',
          minify: false,
          rollupOptions: {
            external: ['electron'],
            output: { format: 'cjs', entryFileNames: 'preload.cjs' },
          },
        },
      });
    },
  };
}

export default defineConfig({
  // What the screens are built from is not the hosts' to copy.
  publicDir: false,
  // The printer of papers is written in the older style of modules and asks where it lies.
  define: { __dirname: 'import.meta.dirname' },
  build: {
    ssr: true,
    outDir: 'dist/host',
    emptyOutDir: true,
    target: 'node24',
    minify: false,
    rollupOptions: {
      input: {
        main: here('electron/desktop/main.ts'),
        loopback: here('electron/loopback/main.ts'),
        terminal: here('electron/terminal/main.ts'),
        writer: here('db/store/writer.ts'),
        reader: here('db/store/reader.ts'),
        checker: here('db/store/checker.ts'),
      },
      external: ['better-sqlite3', 'electron', ...builtinModules, /^node:/],
      output: { entryFileNames: '[name].js', chunkFileNames: 'part-[name]-[hash].js' },
    },
  },
  ssr: { noExternal: true, external: ['better-sqlite3', 'electron'] },
  plugins: [copyMigrations(), copyFonts(), buildPreload()],
});
