import { laterPage } from '../later-page';

/** What is to be done in the weeks to come, and a plan of fish and beds for them; the solver follows when it is asked for. */
export const aheadPage = laterPage({
  id: 'ahead',
  title: 'Ahead',
  heading: 'Weeks ahead',
  load: async () => (await import('./ahead-view')).aheadView,
});
