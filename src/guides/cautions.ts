/** The cautions of the trade, said once, each put on the guides where it can be needed. */
export const cautions = {
  law: 'Follow local codes, and ask a licensed professional where they call for one: for wiring, gas, structures, water abstraction and discharge, the sale of fish and food.',
  figures:
    'Crop and fish figures are starting values, and several are usual practice without a publication behind them. Your own records are better: use them as soon as you have them.',
  base: 'Bases burn skin and eyes, the hydroxides badly. Goggles and gloves; base into plenty of water, never water onto base; away from the fish. Read the safety sheet of what you bought.',
  steps:
    'Dose in small steps and test between them. A rise in pH turns harmless ammonia into the kind that kills, and a jump of pH or salt harms by itself.',
  electricity:
    'Electricity beside water: a residual-current device on every circuit, drip loops on cables, power off before hands go in, and a licensed electrician for the fixed wiring.',
  chlorine:
    'Chlorine and chloramine in tap water kill fish and the bacteria of the filter. Treat make-up water in a tank of its own and test it before it meets the fish.',
  food: 'Fish water is not for drinking. Keep it off the leaves that are eaten, wash hands and tools between fish and harvest, cool the produce at once, and keep the rules for selling food and fish where you are.',
  weight:
    'A cubic metre of water weighs a tonne, and wet gravel nearly two. Have floors, stands, slopes and roofs checked by a structural engineer before you fill anything.',
  sprays:
    'Many sprays against pests and mould, natural ones too, kill fish. Read the label for fish and water life, and keep drift and drainage out of the system.',
  permit:
    'Many species may not be kept, moved or sold without a permit. Ask before you order fish, and never let any get into open water.',
  heater:
    'Heaters that burn gas, oil or wood need a flue, air from outside and a carbon monoxide alarm. Never run an unflued one in a closed tunnel with people inside.',
  air: 'Crowded fish die within the hour when the air stops: stand-by air and an alarm that wakes you, tried out, before the tank is full.',
} as const;
