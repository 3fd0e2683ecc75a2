import * as Astronomy from 'astronomy-engine';
import { calendarDate } from '../../src/core/serial-date';

/** MJ/m2/day above the air, in steps of ten minutes from the sun's true height and distance. */
export function sunAboveTheAir(latitude: number, date: number): number {
  const { year, month, day } = calendarDate(date);
  const observer = new Astronomy.Observer(latitude, 0, 0);
  let sum = 0;
  for (let minute = 5; minute < 1440; minute += 10) {
    const time = new Date(Date.UTC(year, month - 1, day, 0, minute));
    const { ra, dec, dist } = Astronomy.Equator(Astronomy.Body.Sun, time, observer, true, true);
    const height = Astronomy.Horizon(time, observer, ra, dec).altitude;
    sum += (Math.max(0, Math.sin((height * Math.PI) / 180)) * 0.082 * 10) / dist ** 2;
  }
  return sum;
}
