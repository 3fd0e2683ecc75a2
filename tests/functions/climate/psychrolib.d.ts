/** The part of psychrolib that the tests use; pressures in Pa, temperatures in degC once SI is set. */
declare module 'psychrolib' {
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(air: number): number;
    GetTDewPointFromRelHum(air: number, humidity: number): number;
    GetHumRatioFromRelHum(air: number, humidity: number, pressure: number): number;
    GetMoistAirVolume(air: number, humidityRatio: number, pressure: number): number;
    GetDryAirEnthalpy(air: number): number;
    GetDryAirVolume(air: number, pressure: number): number;
    GetRelHumFromTWetBulb(air: number, wetBulb: number, pressure: number): number;
  };
  export default psychrolib;
}
