import { builtFolder } from './built-folder';

/** Begins the build at once; whoever needs it waits for it, and hears why where it failed. */
export default function startBuild(): void {
  builtFolder().catch(() => undefined);
}
