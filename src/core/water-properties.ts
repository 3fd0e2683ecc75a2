/** Density and viscosity of fresh water at the pressure of the air. */

/** kg/m3; `water` 0 to 50 degC. Kell 1975 (its denominator is often misprinted; 16.879850e-3 is right). */
export const waterDensity = (t: number): number =>
  (999.83952 +
    t *
      (16.945176 +
        t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))))) /
  (1 + 16.87985e-3 * t);

/** Pa s; `water` 0 to 50 degC. Kestin, Sokolov & Wakeham 1978. */
export function dynamicViscosity(t: number): number {
  const below = 20 - t;
  return 1.002e-3 * 10 ** ((below / (t + 96)) * (1.2364 + below * (-1.37e-3 + below * 5.7e-6)));
}

/** m2/s. */
export const kinematicViscosity = (t: number): number => dynamicViscosity(t) / waterDensity(t);
