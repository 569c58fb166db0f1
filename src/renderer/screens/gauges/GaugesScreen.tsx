import { useEffect } from 'react';
import { useGauges, loadPorts } from '../../stores/gauges.ts';
import { NewGauge } from './NewGauge.tsx';
import { OneGauge } from './OneGauge.tsx';
import './gauges.css';

/** One gauge with its live reading, its link and its record; without one, the ports where a new one may be. */
export function GaugesScreen({ chosen }: { readonly chosen: string | undefined }) {
  const gauges = useGauges((seen) => seen.gauges);
  useEffect(() => void loadPorts(), []);
  const gauge = gauges?.find((one) => one.id === chosen);
  return gauge === undefined ? <NewGauge /> : <OneGauge key={gauge.id} gauge={gauge} />;
}
