import { type BrandVariants, createDarkTheme, createLightTheme } from '@fluentui/tokens';
import type { Host } from './host';
import { setTheme } from '@fluentui/web-components/theme/set-theme.js';

/** Deep water to spray: the colour of buttons, tabs and focus. */
const water: BrandVariants = {
  10: '#03171B',
  20: '#07272D',
  30: '#0B363E',
  40: '#10454F',
  50: '#135160',
  60: '#17495A',
  70: '#1B6171',
  80: '#1F6F80',
  90: '#3A8793',
  100: '#5BA9B8',
  110: '#6FB5C1',
  120: '#86C2CC',
  130: '#9DD0D7',
  140: '#B5DCE1',
  150: '#CFEAED',
  160: '#E8F6F7',
};

const light = {
  ...createLightTheme(water),
  colorNeutralStroke1: '#8C9A9C',
  colorNeutralForegroundDisabled: '#5F6B73',
};
const dark = {
  ...createDarkTheme(water),
  colorNeutralBackground1: '#1B2325',
  colorNeutralStroke1: '#6F7F82',
  colorNeutralForegroundDisabled: '#93A0A3',
};

/** Colours the pane and what is inside it; the style sheet asks for data-theme. */
function paint(element: HTMLElement, isDark: boolean): void {
  element.dataset['theme'] = isDark ? 'dark' : 'light';
  setTheme(isDark ? dark : light, element);
}

/** Follows the host's light or dark, and the system's where the host does not say. */
export function followTheme(element: HTMLElement, host: Host): void {
  const system = matchMedia('(prefers-color-scheme: dark)');
  let painted: boolean | undefined;
  const follow = (): void => {
    const isDark = host.dark() ?? system.matches;
    if (isDark === painted) return;
    painted = isDark;
    paint(element, isDark);
  };
  follow();
  host.onDark(follow);
  system.addEventListener('change', follow);
}
