import { laterPage } from '../later-page';

/** In which band the weeks ahead may end, and what moves it most. */
export const chancesPage = laterPage({
  id: 'chances',
  title: 'Chances',
  heading: 'Chances of the weeks ahead',
  load: async () => (await import('./chances-view')).chancesView,
});
