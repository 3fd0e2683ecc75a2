import CopyPlugin from 'copy-webpack-plugin';
import HtmlPlugin from 'html-webpack-plugin';
import MiniCssExtractPlugin from 'mini-css-extract-plugin';
import { fileURLToPath } from 'node:url';
import { tsImport } from 'tsx/esm/api';
import { CALLS } from './called-cards.js';
import { HeadersFile } from './headers.js';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const root = (path) => here(`../../../${path}`);

const OFFICE = 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js';
const officeFiles = [
  'office.js',
  'o15apptofilemappingtable.js',
  'excel-web-16.00.js',
  'excel-win32-16.01.js',
  'excel-mac-16.00.js',
  'en-us/office_strings.js',
];

/** The manifest for the address under which this copy will stand; without one, for development. */
async function manifestFor(text, base) {
  if (!base) return text;
  const { hostedManifest } = await tsImport(
    '../../hosts/excel/hosted-manifest.ts',
    import.meta.url,
  );
  return hostedManifest(String(text), base);
}

/**
 * Cards stand twice in the build: for calls alone, and whole for the pane. All that they are made of stands once.
 */
const CARDS = /[\\/]functions[\\/](?:[a-z-]+-cards|card-list)\.ts$/;
const layerRules = [
  // Loading them does nothing but give what they name.
  { include: [root('src/core/'), root('src/functions/')], sideEffects: false },
  { exclude: [CARDS, here('../functions-entry.ts')], layer: 'both' },
  {
    test: /-cards\.ts$/,
    issuerLayer: CALLS,
    enforce: 'pre',
    loader: here('./called-cards.js'),
  },
];

/**
 * The add-in's pane. One page and one script that registers the functions and then fetches the pages;
 * Office's own script comes from Office in a hosted copy, and from the npm package in development.
 */
export const excelBundle = (common, production, base) => ({
  ...common,
  name: 'excel',
  entry: {
    functions: { import: [here('../functions-entry.ts'), here('../start-pane.ts')], layer: CALLS },
  },
  experiments: { layers: true },
  module: { rules: [...common.module.rules, ...layerRules] },
  output: {
    ...common.output,
    // The manifest names the file, and manifests are out of reach once they are handed out; the page asks for
    // it with a mark, so that no cache gives it an old one.
    filename: production ? '[name].js?[contenthash:8]' : '[name].js',
    chunkFilename: production ? '[name].[contenthash:8].js' : '[name].js',
  },
  plugins: [
    new HeadersFile(base),
    new MiniCssExtractPlugin({
      filename: production ? '[name].[contenthash:8].css' : '[name].css',
      chunkFilename: production ? '[name].[contenthash:8].css' : '[name].css',
    }),
    new HtmlPlugin({
      template: here('../pane.html'),
      filename: 'pane.html',
      scriptLoading: 'blocking',
      inject: 'head',
      officeScript: production ? OFFICE : 'office/office.js',
    }),
    new CopyPlugin({
      patterns: [
        { from: here('../icons/*.png'), to: 'icons/[name][ext]' },
        { from: root('manifest.xml'), transform: (text) => manifestFor(text, base) },
        ...(production
          ? []
          : officeFiles.map((file) => ({
              from: root(`node_modules/@microsoft/office-js/dist/${file}`),
              to: `office/${file}`,
            }))),
      ],
    }),
  ],
});
