import CopyPlugin from 'copy-webpack-plugin';
import { fileURLToPath } from 'node:url';
import { tsImport } from 'tsx/esm/api';
import webpack from 'webpack';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const FOLDER = 'reference';
const GUIDES = 'guides';

/** Writes the pages of the written reference out of the same cards as the functions, and the guides. */
class ReferencePages {
  apply(compiler) {
    const { Compilation, sources } = webpack;
    compiler.hooks.thisCompilation.tap('ReferencePages', (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'ReferencePages', stage }, async () => {
        const [{ referencePages }, { guidePages }, { cards }, { questionGroups }] =
          await Promise.all([
            tsImport('../../reference/reference-pages.ts', import.meta.url),
            tsImport('../../guides/guide-pages.ts', import.meta.url),
            tsImport('../../functions/card-list.ts', import.meta.url),
            tsImport('../../functions/questions.ts', import.meta.url),
          ]);
        for (const [name, html] of referencePages(cards, questionGroups)) {
          compilation.emitAsset(`${FOLDER}/${name}`, new sources.RawSource(html));
        }
        for (const [name, html] of guidePages()) {
          compilation.emitAsset(`${GUIDES}/${name}`, new sources.RawSource(html));
        }
      });
    });
  }
}

/** The written reference: static pages with fixed addresses, to which Excel's help links lead. */
export const referenceBundle = (common) => ({
  ...common,
  name: 'reference',
  entry: { 'reference-search': here('../reference-search.ts') },
  output: { ...common.output, filename: `${FOLDER}/[name].js` },
  plugins: [
    new ReferencePages(),
    new CopyPlugin({
      patterns: [
        { from: here('../../reference/reference.css'), to: `${FOLDER}/[name][ext]` },
        { from: here('../../guides/guides.css'), to: `${GUIDES}/[name][ext]` },
        { from: here('../../reference/pictures'), to: `${GUIDES}/[name][ext]` },
      ],
    }),
  ],
  // The workbench empties the folder first.
  dependencies: ['workbench'],
});
