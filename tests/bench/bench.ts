/** npm run bench: how fast it is, as one table, printed and kept in DEVELOPERS.md. */
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { rangedCalls, singleCalls } from './calls';
import { engines } from './engines';
import { growth } from './plan-growth';
import type { Line } from './line';
import { loading } from './loading';

const FILE = 'DEVELOPERS.md';
const BEGIN = '<!-- bench: written by npm run bench -->';
const END = '<!-- bench ends -->';

const lines: Line[] = [
  ...rangedCalls(),
  ...singleCalls(),
  ...engines(),
  ...growth(),
  ...(await loading()),
];
const table = [
  '| what | measured | goal |',
  '| --- | --- | --- |',
  ...lines.map(({ what, measured, goal }) => `| ${what} | ${measured} | ${goal} |`),
].join('\n');
const machine = `Machine: ${cpus().length} cores, ${Math.round(totalmem() / 2 ** 30)} GB of memory, Node.js ${process.versions.node}. Ratios are medians of works that took turns in one run.`;
console.log(`${machine}\n\n${table}`);

const text = readFileSync(FILE, 'utf8');
const [begin, end] = [text.indexOf(BEGIN), text.indexOf(END)];
if (begin < 0 || end < begin) throw new Error(`${FILE} has lost its marks "${BEGIN}" and "${END}"`);
writeFileSync(
  FILE,
  `${text.slice(0, begin + BEGIN.length)}\n\n${machine}\n\n${table}\n\n${text.slice(end)}`,
);
