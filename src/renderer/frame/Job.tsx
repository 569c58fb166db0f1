import { useState } from 'react';
import { buildOf, type Route, useRoute } from '../stores/route.ts';
import { BuildJob } from './BuildJob.tsx';
import { BuildsJob } from './BuildsJob.tsx';
import { GaugesJob } from './GaugesJob.tsx';
import { IconButton } from './IconButton.tsx';
import './job.css';

/** The side where the job stands: the steps of the open build, the builds there are, or the gauges; none where it would double the stage. */
export function Job() {
  const route = useRoute(({ route }) => route);
  // Unfolded on one screen; whoever goes on finds it folded again.
  const [openAt, setOpenAt] = useState<Route>();
  const open = openAt === route;
  // All the builds are on the stage there: a list of them at the side would say the same twice.
  if (route.at === 'shop' || route.at === 'compare') return undefined;
  const folds = buildOf(route) !== undefined;
  return (
    <nav className={`job${folds ? ' job--folds' : ''}${open ? ' job--open' : ''}`} aria-label="The job">
      {folds ? (
        <div className="job__fold">
          <IconButton
            icon="list"
            label={open ? 'Fold the steps' : 'Unfold the steps'}
            onPress={() => setOpenAt(open ? undefined : route)}
          />
        </div>
      ) : undefined}
      {route.at === 'gauges' ? <GaugesJob route={route} /> : undefined}
      {buildOf(route) === undefined ? undefined : <BuildJob route={route} />}
      {buildOf(route) === undefined && route.at !== 'gauges' ? <BuildsJob /> : undefined}
    </nav>
  );
}
