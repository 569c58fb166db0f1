import type { Build } from '../../shared/job/records/build.ts';
import { AssembleScreen } from '../screens/job/assemble/AssembleScreen.tsx';
import { AxleScreen } from '../screens/job/axle/AxleScreen.tsx';
import { BuildScreen } from '../screens/job/build/BuildScreen.tsx';
import { BuildsScreen } from '../screens/bench/builds/BuildsScreen.tsx';
import { CertificateScreen } from '../screens/certificate/CertificateScreen.tsx';
import { CheckScreen, NoAssembly } from '../screens/checks/check/CheckScreen.tsx';
import { DrawerScreen } from '../screens/shims/drawer/DrawerScreen.tsx';
import { GaugesScreen } from '../screens/bench/gauges/GaugesScreen.tsx';
import { JustMeasureScreen } from '../screens/bench/justMeasure/JustMeasureScreen.tsx';
import { LimitsScreen } from '../screens/job/limits/LimitsScreen.tsx';
import { NotesScreen } from '../screens/job/notes/NotesScreen.tsx';
import { ExperienceScreen } from '../screens/shims/experience/ExperienceScreen.tsx';
import { CutScreen } from '../screens/shims/cut/CutScreen.tsx';
import { MeaningScreen } from '../screens/shims/meaning/MeaningScreen.tsx';
import { PaintingScreen } from '../screens/shims/painting/PaintingScreen.tsx';
import { TrialsScreen } from '../screens/shims/trials/TrialsScreen.tsx';
import { PhotoScreen } from '../screens/checks/photo/PhotoScreen.tsx';
import { PlanScreen } from '../screens/shims/plan/PlanScreen.tsx';
import { RoadTestScreen } from '../screens/job/roadTest/RoadTestScreen.tsx';
import { CompareScreen } from '../screens/shop/CompareScreen.tsx';
import { ShopScreen } from '../screens/shop/ShopScreen.tsx';
import { SettleScreen } from '../screens/job/settle/SettleScreen.tsx';
import { SumsScreen } from '../screens/shims/sums/SumsScreen.tsx';
import { SwapScreen } from '../screens/shims/swap/SwapScreen.tsx';
import { Stage } from '../parts/Stage.tsx';
import { Words } from '../parts/Words.tsx';
import { useNotebook } from '../stores/notebook.ts';
import { go, type Route, useRoute } from '../stores/route.ts';
import { noCase } from '../../shared/basics/noCase.ts';

/** Stage and words for where the technician is. */
export function Screen() {
  const route = useRoute(({ route }) => route);
  if (route.at === 'builds') return <BuildsScreen key={route.comebackOf} comebackOf={route.comebackOf} />;
  if (route.at === 'gauges') return <GaugesScreen route={route} />;
  if (route.at === 'just-measure') return <JustMeasureScreen key={route.gauge ?? ''} gauge={route.gauge} />;
  if (route.at === 'drawer') return <DrawerScreen />;
  if (route.at === 'shop') return <ShopScreen key={JSON.stringify(route)} alike={route.alike} which={route.which} />;
  if (route.at === 'compare') return <CompareScreen one={route.one} other={route.other} />;
  return <InBuild route={route} />;
}

type BuildRoute = Exclude<Route, { at: 'builds' | 'gauges' | 'just-measure' | 'drawer' | 'shop' | 'compare' }>;

function InBuild({ route }: { readonly route: BuildRoute }) {
  const build = useNotebook((open) => open.build);
  if (build === undefined || build.id !== route.build) return <Opening />;
  return <BuildRouteScreen route={route} build={build} />;
}

function BuildRouteScreen({ route, build }: { readonly route: BuildRoute; readonly build: Build }) {
  switch (route.at) {
    case 'build':
      return <BuildScreen build={build} assembly={route.assembly} />;
    case 'axle':
      return <AxleScreen key={build.id} build={build} />;
    case 'limits':
      return <LimitsScreen key={build.id} build={build} line={route.line} />;
    case 'notes':
      return <NotesScreen build={build} />;
    case 'assemble':
      return <AssembleScreen key={route.phase} build={build} phase={route.phase} />;
    case 'check':
      return (
        <CheckScreen
          key={`${route.assembly} ${route.check}`}
          build={build}
          assembly={route.assembly}
          check={route.check}
          shimsOf={route.shimsOf}
          anew={route.anew}
        />
      );
    case 'settle':
      return <SettleScreen build={build} assembly={route.assembly} check={route.check} />;
    case 'photo':
    case 'meaning':
    case 'painting':
      return <InAssembly build={build} route={route} />;
    case 'cut':
      return <CutScreen build={build} />;
    case 'trials':
      return <TrialsScreen build={build} />;
    case 'plan':
      return <PlanScreen build={build} />;
    case 'experience':
      return <ExperienceScreen build={build} />;
    case 'sums':
      return <SumsScreen key={route.assembly} build={build} assembly={route.assembly} sum={route.sum} />;
    case 'swap':
      return <SwapScreen build={build} swap={route.swap} />;
    case 'certificate':
      return <CertificateScreen build={build} />;
    case 'road-test':
      return <RoadTestScreen key={build.id} build={build} />;
    default:
      throw noCase(route);
  }
}

interface InAssemblyProps {
  readonly build: Build;
  readonly route: Extract<Route, { at: 'photo' | 'meaning' | 'painting' }>;
}

/** A screen of one assembly; one that was struck through is said to be gone. */
function InAssembly({ build, route }: InAssemblyProps) {
  const assembly = build.assemblies.find((one) => one.id === route.assembly);
  if (assembly === undefined) return <NoAssembly build={build} />;
  if (route.at === 'meaning') return <MeaningScreen build={build} assembly={assembly} />;
  if (route.at === 'painting') return <PaintingScreen build={build} assembly={assembly} />;
  const { flank, place, photo } = route;
  return <PhotoScreen build={build} assembly={assembly} flank={flank} place={place} photo={photo} />;
}

const Opening = () => (
  <>
    <Stage title="Opening the build">
      <p className="quiet">The notebook is being read.</p>
    </Stage>
    <Words title="One moment" next={{ words: 'Back to the builds', run: () => go({ at: 'builds' }) }}>
      <p>If nothing comes, the bench cannot be reached, or this build is in another data folder.</p>
    </Words>
  </>
);
