// The functions stand in the first script; the pane's pages follow in their own time.
void import('./pane-entry');
