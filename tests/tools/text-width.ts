/**
 * Widths of texts in the font of the workbooks, in pixels of a screen at 96 to the inch. Advance widths of Carlito
 * 1.104, whose shapes are as wide as those of Calibri (its table hmtx, 2048 units to the em).
 */

const CHARACTERS = `${Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i)).join('')}°²³µ·×éö–—‘’“”…€£₂₃₄→≥≤`;
const REGULAR =
  '463 667 821 1020 1038 1464 1397 452 621 621 1020 1020 511 627 517 791 1038 1038 1038 1038 1038 1038 1038 1038 1038 1038 548 548 1020 1020 1020 949 1831 1185 1114 1092 1260 1000 941 1292 1276 516 653 1064 861 1751 1322 1356 1058 1378 1112 941 998 1314 1162 1822 1063 998 959 628 791 628 1020 1020 596 981 1076 866 1076 1019 625 964 1076 470 490 931 470 1636 1076 1080 1076 1076 714 801 686 1076 925 1464 887 927 809 644 943 644 1020 694 688 685 1126 517 1020 1019 1080 1020 1854 511 511 857 857 1414 1038 1038 688 685 731 1854 1020 1020';
const BOLD =
  '463 667 898 1020 1038 1493 1443 478 638 638 1020 1020 528 627 547 880 1038 1038 1038 1038 1038 1038 1038 1038 1038 1038 565 565 1020 1020 1020 949 1840 1241 1148 1084 1291 999 940 1305 1292 546 678 1120 866 1790 1349 1385 1090 1405 1153 968 1014 1337 1211 1856 1128 1064 979 665 880 665 1020 1020 615 1011 1099 857 1099 1031 648 971 1099 503 523 983 503 1666 1099 1101 1099 1099 728 817 710 1099 969 1526 941 970 814 704 973 704 1020 701 692 688 1154 548 1020 1031 1101 1020 1854 528 528 891 891 1457 1038 1038 692 688 749 1854 1020 1020';

const EM = 2048;
const PIXELS_PER_POINT = 96 / 72;

const table = (text: string): ReadonlyMap<string, number> => {
  const widths = text.split(' ').map(Number);
  return new Map([...CHARACTERS].map((character, i) => [character, widths[i] as number]));
};
const regular = table(REGULAR);
const bold = table(BOLD);

/** Throws where the font's width of a character is not known here. */
export function textWidth(text: string, points: number, isBold = false): number {
  const widths = isBold ? bold : regular;
  let units = 0;
  for (const character of text) {
    // A letter with a mark is as wide as without.
    const width = widths.get(character) ?? widths.get(character.normalize('NFD').charAt(0));
    if (width === undefined) throw new Error(`how wide is "${character}"?`);
    units += width;
  }
  return (units / EM) * points * PIXELS_PER_POINT;
}

/** What a column of so many characters leaves for a text: a digit is 7 pixels wide, and 3 are kept from its edges. */
export const columnPixels = (characters: number): number => Math.round(characters * 7 + 5);
