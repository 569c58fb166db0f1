import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import './theme/tokens.css';
import './theme/base.css';
import { listenToKeys } from './commands/keys.ts';
import { App } from './frame/App.tsx';
import { tellDefects } from './frame/tellDefects.ts';
import { catchTypedReadings } from './live/keyboardGauge.ts';
import { listen } from './live/slots.ts';
import { followArchive, loadArchive } from './stores/archive.ts';
import { followBackups } from './stores/backups.ts';
import { followBench } from './stores/bench.ts';
import { followBuilds, loadBuilds } from './stores/builds.ts';
import { followChecks, loadChecks } from './stores/checks.ts';
import { giveBench } from './stores/client.ts';
import { followGauges, loadGauges } from './stores/gauges.ts';
import { followDrawer } from './stores/drawer.ts';
import { showProblem } from './stores/problems.ts';
import { followNotebook } from './stores/notebook.ts';
import { followPapers } from './stores/papers.ts';
import { followPhotoFolder, loadPhotoFolder } from './stores/photos.ts';
import { followSettings, loadSettings } from './stores/session.ts';
import { followTheme } from './theme/follow.ts';
import { connect } from './transport/connect.ts';

/** Where the page is put together: one bench, the stores that follow it, the keys, and the screens. */
tellDefects(window);
const bench = connect(window, showProblem);
giveBench(bench);
listen(bench);
followGauges(bench);
followBuilds(bench);
followNotebook(bench);
followPhotoFolder(bench);
followBackups(bench);
followArchive(bench);
followPapers(bench);
followDrawer(bench);
followChecks(bench);
followSettings(bench);
followBench(bench, () => {
  void loadSettings();
  void loadGauges();
  void loadChecks();
  void loadBuilds();
  void loadPhotoFolder();
  void loadArchive();
});
followTheme(document.documentElement);
// Before the commands: what a gauge types is no command.
catchTypedReadings(window);
listenToKeys(window);

const place = document.querySelector('#bench');
if (place === null) throw new Error('the page has no place for the bench');
createRoot(place).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
