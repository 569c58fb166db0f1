import { useEffect } from 'react';
import { useGauges, loadPorts } from '../../../stores/gauges.ts';
import type { GaugesRoute } from '../../../stores/route.ts';
import { NewGauge } from './NewGauge.tsx';
import { OneGauge } from './OneGauge.tsx';
import { PortsScreen } from './PortsScreen.tsx';
import './gauges.css';

/** One gauge with its live reading, its link and its record; without one, the ports where a new one may be. */
export function GaugesScreen({ route }: { readonly route: GaugesRoute }) {
  const gauges = useGauges((seen) => seen.gauges);
  useEffect(() => void loadPorts(), []);
  const gauge = gauges?.find((one) => one.id === route.gauge);
  if (gauge !== undefined) return <OneGauge key={gauge.id} gauge={gauge} doing={route.doing} />;
  return route.begin === undefined ? <PortsScreen /> : <NewGauge key={route.begin} begin={route.begin} />;
}
