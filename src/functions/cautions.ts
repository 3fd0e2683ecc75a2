/**
 * The cautions of the trade, each said once. Cards, sheets, the pane and the guides show them where the
 * danger is met.
 */
export const cautions = {
  base: 'Bases burn skin and eyes, and the hydroxides heat up in water. Goggles and gloves; base into plenty of water, never water onto base; away from the fish. Follow the safety data sheet.',
  steps:
    'Dose half at first, in small steps, and test before the next one. A rise in pH turns harmless ammonia into the kind that kills, and a jump of pH or salt harms by itself.',
  electricity:
    'Electricity beside water kills: a residual-current device (GFCI) on every circuit, drip loops on cables, power off before hands go in, and wiring by a licensed electrician to local codes.',
  chlorine:
    'Chlorine and chloramine in tap water kill fish and the bacteria of the filter. Treat make-up water in a tank of its own, and test it before it meets the fish.',
  food: 'Fish water is not for drinking. Keep it off the leaves that are eaten, wash hands and tools between fish and harvest, cool the produce at once, keep records of lots, and follow local rules for selling food and fish.',
  weight:
    'A cubic metre of water weighs a tonne (8.3 lb a US gallon), wet gravel nearly two. Have floors, stands, slopes and roofs checked by a licensed engineer, to local codes, before you fill anything.',
  sprays:
    'Many sprays against pests and mould, natural ones too, kill fish. Use none that its label does not allow over fish, and keep drift and drainage out of the system.',
  permit:
    'Many species may not be kept, moved or sold without a permit. Ask the local authority before you order fish, and never let any get into open water.',
  heater:
    'Heaters that burn gas, oil or wood give off carbon monoxide, which kills, and gases that spoil crops: a flue, air from outside, an alarm, a licensed fitter and local codes; never an unflued one with people inside.',
  air: 'Crowded fish die within the hour when the air stops: stand-by air and an alarm that wakes you, tried out, before the tank is full.',
  medicines:
    'Copper, formalin and antibiotics in the loop kill its bacteria, harm plants and stay in what is eaten. Treat fish in a tank apart, with what a vet prescribes; keep withdrawal times and local rules.',
  quarantine:
    'New fish bring disease. Keep them two to four weeks (common practice) in a tank apart, with nets and water of its own, and ask a fish vet if they ail; local rules may name diseases to report.',
  sulphide:
    'Black sludge and standing sumps give off hydrogen sulphide, which kills fish within minutes, and people too. Stir none inside the loop, air the place, and enter no tank or sump alone: local codes for closed spaces.',
  wounds:
    'Fish water, spines and teeth infect wounds, at times gravely. Cover cuts, wear gloves, wash with soap; see a doctor about a wound that swells or will not heal, and say that you handle fish.',
  coli: 'Harmful E. coli can live in fish water and on roots. Keep manure, birds and pets off it, roots off the packing table, rinse with drinking water only, and have water tested as local rules for produce ask.',
  law: 'Follow local codes, and ask a licensed professional where they call for one: for wiring, gas, structures, water abstraction and discharge, the sale of fish and food.',
  figures:
    'Crop and fish figures are starting values, and several are usual practice without a publication behind them. Your own records are better: use them as soon as you have them.',
} as const;

export type CautionId = keyof typeof cautions;
