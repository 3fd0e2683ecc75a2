import CopyPlugin from 'copy-webpack-plugin';
import HtmlPlugin from 'html-webpack-plugin';
import MiniCssExtractPlugin from 'mini-css-extract-plugin';
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { tsImport } from 'tsx/esm/api';
import webpack from 'webpack';
import { excelBundle } from './src/app/bundles/excel-bundle.js';
import { referenceBundle } from './src/app/bundles/reference-bundle.js';
import { Licences } from './src/app/bundles/licences.js';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

/** Writes functions.json, from which Excel learns the functions, out of the same cards. */
class FunctionsJson {
  /** @param base the address under which this copy will stand; without one there are no help links */
  constructor(base) {
    this.help = base && new URL('reference/', base).href;
  }

  apply(compiler) {
    const { Compilation, sources } = webpack;
    compiler.hooks.thisCompilation.tap('FunctionsJson', (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'FunctionsJson', stage }, async () => {
        const { cards } = await tsImport('./src/functions/card-list.ts', import.meta.url);
        const { functionsMetadata } = await tsImport(
          './src/functions/metadata.ts',
          import.meta.url,
        );
        const text = JSON.stringify(functionsMetadata(cards, this.help), undefined, 1);
        compilation.emitAsset('functions.json', new sources.RawSource(text));
      });
    });
  }
}

/** Writes the demo plan with what its formulas give, so that the page need not compute it before it shows. */
class DemoWorkbook {
  apply(compiler) {
    const { Compilation, sources } = webpack;
    compiler.hooks.thisCompilation.tap('DemoWorkbook', (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'DemoWorkbook', stage }, async () => {
        const { demoWorkbook } = await tsImport(
          './src/hosts/workbench/demo-plan.ts',
          import.meta.url,
        );
        const text = JSON.stringify({ program: compilation.hash, ...demoWorkbook() });
        compilation.emitAsset('demo-workbook.json', new sources.RawSource(text));
      });
    });
  }
}

/** Tells the service worker which files to keep: those of the page, by the names of this build. */
class KeptFiles {
  apply(compiler) {
    const { Compilation, sources } = webpack;
    compiler.hooks.thisCompilation.tap('KeptFiles', (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: 'KeptFiles', stage }, (assets) => {
        const files = Object.keys(assets)
          .filter((file) => /\.(html|js|css|json|woff2|wasm)$/.test(file) && file !== WORKER)
          .sort();
        const hash = createHash('sha256');
        for (const file of files) hash.update(file).update(assets[file].buffer());
        const build = JSON.stringify({ mark: hash.digest('hex').slice(0, 12), files });
        compilation.updateAsset(
          WORKER,
          (source) => new sources.RawSource(`const BUILD=${build};${source.source()}`),
        );
      });
    });
  }
}
const WORKER = 'service-worker.js';

const common = (production) => ({
  mode: production ? 'production' : 'development',
  devtool: production ? false : 'cheap-module-source-map',
  cache: {
    type: 'filesystem',
    cacheDirectory: here('./.cache/webpack'),
    buildDependencies: { config: [fileURLToPath(import.meta.url)] },
  },
  output: { path: here('./dist/') },
  resolve: {
    extensions: ['.ts', '.js'],
    alias: {
      // Its entry for browsers is a script with the drawing library in it; the module is wanted.
      '@odoo/o-spreadsheet$': here('./node_modules/@odoo/o-spreadsheet/dist/o_spreadsheet.esm.js'),
      // Its entry for modules asks for its own address, which a bundle would keep from the machine that made it.
      highs$: here('./node_modules/highs/build/highs.js'),
    },
  },
  module: {
    rules: [
      {
        test: /\.ts$/,
        loader: 'ts-loader',
        options: { transpileOnly: true, compilerOptions: { noEmit: false } },
      },
      { test: /\.css$/, use: [MiniCssExtractPlugin.loader, 'css-loader'] },
      { test: /\.xml$/, type: 'asset/source' },
      { test: /\.woff2$/, type: 'asset/resource', generator: { filename: 'fonts/[name][ext]' } },
      // The solver, fetched when a plan is asked for.
      {
        test: /\.wasm$/,
        type: 'asset/resource',
        generator: { filename: '[name].[contenthash:8][ext]' },
      },
      { test: /highs\.js$/, parser: { node: { __filename: false, __dirname: false } } },
      // Older forms of the icon font, which no browser of today asks for.
      { test: /\.(eot|ttf|woff|svg)$/, type: 'asset/resource', generator: { emit: false } },
    ],
  },
  // Compressing twice, as webpack does by itself, takes longer for two thousandths of the size.
  optimization: { minimizeOptions: { javascript: { compress: { passes: 1 } } } },
  // What the solver asks for in Node alone.
  externals: { 'node:fs': 'undefined', 'node:crypto': 'undefined' },
  performance: { hints: false },
  stats: { preset: 'errors-warnings', assets: production, timings: production },
  infrastructureLogging: { level: 'warn' },
});

/** The workbench: one page that needs nothing but its own files. */
const workbench = (production) => ({
  ...common(production),
  name: 'workbench',
  // Following variables through the grid's library takes a sixth of the build for a hundredth of the page's size.
  optimization: {
    minimizeOptions: {
      javascript: { compress: { passes: 1, reduce_vars: false, collapse_vars: false } },
    },
  },
  entry: {
    workbench: here('./src/app/workbench-entry.ts'),
    // Not while it is being worked on: every change must show at once.
    ...(production && {
      worker: { import: here('./src/app/service-worker.ts'), filename: WORKER },
    }),
  },
  output: {
    ...common(production).output,
    filename: production ? '[name].[contenthash:8].js' : '[name].js',
    clean: production,
  },
  plugins: [
    new MiniCssExtractPlugin({
      filename: production ? '[name].[contenthash:8].css' : '[name].css',
    }),
    new HtmlPlugin({
      template: here('./src/app/workbench.html'),
      filename: 'index.html',
      scriptLoading: 'defer',
      chunks: ['workbench'],
    }),
    ...(production ? [new DemoWorkbook(), new KeptFiles(), new Licences()] : []),
    new CopyPlugin({
      patterns: [{ from: here('./LICENSE'), to: 'licences/gillbed/LICENSE', toType: 'file' }],
    }),
  ],
});

export default async (env, argv) => {
  const production = argv.mode === 'production';
  const { hostedFolder } = await tsImport('./src/hosts/excel/hosted-manifest.ts', import.meta.url);
  const base = env.base && hostedFolder(env.base);
  const excel = excelBundle(common(production), production, base);
  return [
    workbench(production),
    {
      ...excel,
      plugins: [...excel.plugins, new FunctionsJson(base), new Licences()],
      // The workbench empties the folder first.
      dependencies: ['workbench'],
    },
    referenceBundle(common(production)),
  ];
};
