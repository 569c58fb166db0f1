import type { Database } from '../store/database.ts';
import { type BuildList, openBuildList } from '../store/buildList.ts';
import { type GaugeChecks, openGaugeChecks } from '../store/gaugeChecks.ts';
import { type GaugeRecords, openGaugeRecords } from '../store/gaugeRecords.ts';
import { type LooseMeasurements, openLooseMeasurements } from '../store/looseMeasurements.ts';
import { type Notebooks, openNotebooks } from '../store/notebooks.ts';
import { openPhotos, type PhotoStore } from '../store/photos.ts';
import type { Skip } from '../store/recordRows.ts';
import { openSettings, type SettingStore } from '../store/settings.ts';
import { openShimDrawer, type ShimDrawerStore } from '../store/shimDrawer.ts';
import { openUnfinished, type UnfinishedStore } from '../store/unfinished.ts';

/** Everything that is kept in the database, but for the journal. */
export interface Stores {
  readonly notebooks: Notebooks;
  readonly buildList: BuildList;
  readonly gaugeRecords: GaugeRecords;
  readonly gaugeChecks: GaugeChecks;
  readonly loose: LooseMeasurements;
  readonly drawer: ShimDrawerStore;
  readonly photos: PhotoStore;
  readonly settings: SettingStore;
  readonly unfinished: UnfinishedStore;
}

export const openStores = (database: Database, skip: Skip): Stores => ({
  notebooks: openNotebooks(database, skip),
  buildList: openBuildList(database),
  gaugeRecords: openGaugeRecords(database, skip),
  gaugeChecks: openGaugeChecks(database, skip),
  loose: openLooseMeasurements(database, skip),
  drawer: openShimDrawer(database),
  photos: openPhotos(database),
  settings: openSettings(database, skip),
  unfinished: openUnfinished(database, skip),
});
