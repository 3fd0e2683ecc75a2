import { laterPage } from '../later-page';

/** What the farm's own records say beside the tables, and which of both counts. */
export const ownFiguresPage = laterPage({
  id: 'own-figures',
  title: 'Own figures',
  heading: 'Own figures',
  load: async () => (await import('./own-figures-view')).ownFiguresView,
});
