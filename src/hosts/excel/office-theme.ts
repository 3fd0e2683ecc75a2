/** Whether a colour such as "#1F1F1F" is a dark one; undefined for anything else. */
function isDarkColour(colour: string | undefined): boolean | undefined {
  const parts = /^#?([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(colour ?? '');
  if (!parts) return undefined;
  const [red = 0, green = 0, blue = 0] = parts.slice(1).map((part) => parseInt(part, 16));
  // Weights of ITU-R BT.601: what the eye makes of the three colours.
  return 0.299 * red + 0.587 * green + 0.114 * blue < 128;
}

/** Office's own theme; undefined where this Office names none. */
export function officeIsDark(): boolean | undefined {
  const theme = Office.context.officeTheme as Partial<Office.OfficeTheme> | undefined;
  return theme?.isDarkTheme ?? isDarkColour(theme?.bodyBackgroundColor);
}

/**
 * Excel tells nobody when its theme changes (only Outlook does); whoever changed it comes back to the pane,
 * and then the theme is read again.
 */
export function onOfficeTheme(listener: () => void): void {
  for (const event of ['focus', 'pageshow']) window.addEventListener(event, listener);
  for (const event of ['visibilitychange', 'pointerenter']) {
    document.addEventListener(event, listener);
  }
}
