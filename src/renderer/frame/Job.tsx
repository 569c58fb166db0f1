import { buildOf, useRoute } from '../stores/route.ts';
import { BuildJob } from './BuildJob.tsx';
import { BuildsJob } from './BuildsJob.tsx';
import { GaugesJob } from './GaugesJob.tsx';
import './job.css';

/** The side where the job stands: the steps of the open build, the builds there are, or the gauges. */
export function Job() {
  const route = useRoute(({ route }) => route);
  return (
    <nav className="job" aria-label="The job">
      {route.at === 'gauges' ? <GaugesJob route={route} /> : undefined}
      {buildOf(route) === undefined ? undefined : <BuildJob route={route} />}
      {buildOf(route) === undefined && route.at !== 'gauges' ? <BuildsJob /> : undefined}
    </nav>
  );
}
