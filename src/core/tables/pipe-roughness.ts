/**
 * Height of the roughness of pipe walls, mm, from textbook tables of pipe flow.
 * Plastic is given there as 0 to 0.0015; the rough end is taken. Slime raises every one of them.
 */
export const pipeRoughness = [
  {
    name: 'plastic',
    spellings: ['PVC', 'PE', 'polyethylene', 'smooth'],
    roughness: 0.0015,
  },
  { name: 'steel', spellings: ['commercial steel'], roughness: 0.045 },
  {
    name: 'galvanised steel',
    spellings: ['galvanised', 'galvanized', 'galvanized steel'],
    roughness: 0.15,
  },
  { name: 'cast iron', spellings: ['iron'], roughness: 0.26 },
] as const;

export type PipeMaterial = (typeof pipeRoughness)[number];
