/** The licences of what is in the build: most of them ask to be handed on with it. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import webpack from 'webpack';

const LICENCE = /^(?:licen[cs]e|copying|notice)/i;

const descriptionIn = (folder) => {
  const file = join(folder, 'package.json');
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : undefined;
};

/** The folder of the package that a file belongs to; undefined for our own files. */
function packageOf(file) {
  if (!file?.includes(`${sep}node_modules${sep}`)) return undefined;
  let folder = dirname(file);
  // Parts of a package may have a description of their own, which has no version.
  while (descriptionIn(folder)?.version === undefined) folder = dirname(folder);
  return folder;
}

/** The files of a module, and of those that were joined into it. */
const filesOf = (module) => [module.nameForCondition(), ...(module.modules ?? []).flatMap(filesOf)];

/** Lists the packages of a bundle in the folder licences, with the licences that lie in them. */
export class Licences {
  apply(compiler) {
    const { Compilation, sources } = webpack;
    compiler.hooks.thisCompilation.tap('Licences', (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tap({ name: 'Licences', stage }, () => {
        const emit = (path, content) =>
          compilation.emitAsset(`licences/${path}`, new sources.RawSource(content));
        const folders = new Set([...compilation.modules].flatMap(filesOf).map(packageOf));
        folders.delete(undefined);
        const lines = [...folders].map((folder) => {
          const { name, version, license, homepage } = descriptionIn(folder);
          for (const file of readdirSync(folder).filter((one) => LICENCE.test(one))) {
            emit(`${name}/${file}`, readFileSync(join(folder, file)));
          }
          return `${name} ${version}: ${license}${homepage ? `, ${homepage}` : ''}`;
        });
        emit(`packages-of-${compiler.name}.txt`, `${lines.sort().join('\n')}\n`);
      });
    });
  }
}
