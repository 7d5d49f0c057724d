import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

// One script and one style, which the program puts into the one file of the briefing.
export default defineConfig({
  plugins: [svelte()],
  build: {
    target: 'es2022',
    outDir: 'dist/briefing',
    cssCodeSplit: false,
    modulePreload: false,
    reportCompressedSize: true,
    rollupOptions: {
      input: 'src/briefing/main.ts',
      output: { format: 'iife', entryFileNames: 'briefing.js', assetFileNames: 'briefing.[ext]' },
    },
  },
});
