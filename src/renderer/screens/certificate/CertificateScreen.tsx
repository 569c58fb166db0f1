import { useMemo, useState } from 'react';
import type { Answer } from '../../../shared/contract/contract.ts';
import { hasGoneOn, roadTestSince } from '../../../shared/job/certifying/certificateData.ts';
import type { Notebook } from '../../../shared/job/records/notebook.ts';
import type { Build } from '../../../shared/job/records/build.ts';
import { type Next, nextStep } from '../../../shared/job/checks/readiness.ts';
import { Button } from '../../parts/Button.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { Stage } from '../../parts/Stage.tsx';
import { StateMark } from '../../parts/StateMark.tsx';
import { Words } from '../../parts/Words.tsx';
import { ask } from '../../stores/ask.ts';
import { signature, useNotebook } from '../../stores/notebook.ts';
import { usePaper } from '../../stores/papers.ts';
import { changeSession, useSession } from '../../stores/session.ts';
import { timeWords } from '../../words/days.ts';
import { goOn } from '../checks/check/goOn.ts';
import { Elsewhere } from './Elsewhere.tsx';
import { missingFor } from './missing.ts';
import { PaperProgress } from './PaperProgress.tsx';
import { Issued } from './Issued.tsx';
import '../../parts/button.css';
import { Preview } from './Preview.tsx';
import { PrintSlip } from './PrintSlip.tsx';
import './certificate.css';

type Certificate = Answer<'certificate.issue'>;

/** The certificate: what it will say is missing, on which paper, and the file itself. */
export function CertificateScreen({ build }: { readonly build: Build }) {
  const { page, units } = useSession();
  const [issued, setIssued] = useState<Certificate>();
  const notebook = useNotebook((open) => open.notebook);
  const { missing, overridden } = useMemo(
    () => (notebook === undefined ? { missing: [], overridden: 0 } : missingFor(notebook)),
    [notebook],
  );
  const [everything, setEverything] = useState(false);
  const paper = usePaper();
  const working = paper.share !== undefined;
  const issue = async (): Promise<void> => {
    const what = { ...signature(), page, units, everything, job: paper.job };
    const certificate = await paper.run(() => ask('certificate.issue', what));
    if (certificate !== undefined) setIssued(certificate);
  };
  const issuing = {
    words: issueWords(working, missing.length > 0, issued !== undefined),
    run: () => void issue(),
    disabled: working,
  };
  // Issued, and nothing read since: the job goes on with the road test.
  const onward = !working && afterwards.has(nextStep(build).do);
  return (
    <>
      <Stage title="Certificate">
        <div className="certificate">
          <div className="certificate__words">
            {issued === undefined ? undefined : <Issued certificate={issued} />}
            <PaperProgress paper={paper} words="Writing it" />
            <Choices everything={everything} onEverything={setEverything} />
            <Missing sentences={missing} overridden={overridden} />
            <Earlier build={build} notebook={notebook} />
            <Elsewhere build={build.id} everything={everything} hasPhotos={hasPhotos(build)} />
            <p>
              <PrintSlip build={build.id} slip={{ kind: 'tag' }}>
                Print a tag for the axle
              </PrintSlip>
            </p>
          </div>
          <Preview key={notebook?.entries.length} build={build.id} page={page} units={units} everything={everything} />
        </div>
      </Stage>
      <Words
        title={missing.length === 0 ? 'Complete' : 'Incomplete'}
        next={onward ? goOn(build) : issuing}
        others={onward ? <Button onPress={issuing.run}>{issuing.words}</Button> : undefined}
      >
        <p>
          It says which readings lie within the limits entered, with which gauges, and what was not measured. It never
          says more than that.
        </p>
        <p className="quiet">The maker’s manual and local rules go before it.</p>
      </Words>
    </>
  );
}

interface ChoicesProps {
  readonly everything: boolean;
  readonly onEverything: (everything: boolean) => void;
}

/** On which paper, and how much of it. */
function Choices({ everything, onEverything }: ChoicesProps) {
  const page = useSession((session) => session.page);
  return (
    <div className="certificate__choices">
      <Choice
        label="Paper"
        value={page}
        onChange={(chosen) => changeSession({ page: chosen })}
        options={[
          { value: 'a4', words: 'A4' },
          { value: 'letter', words: 'Letter' },
        ]}
      />
      <Choice
        label="How much"
        value={everything ? 'everything' : 'usual'}
        onChange={(chosen) => onEverything(chosen === 'everything')}
        options={[
          { value: 'usual', words: 'Two to four pages' },
          { value: 'everything', words: 'Everything' },
        ]}
      />
    </div>
  );
}

const hasPhotos = ({ assemblies }: Build): boolean => assemblies.some(({ photos }) => photos.length > 0);

const afterwards: ReadonlySet<Next['do']> = new Set(['road-test', 'comeback', 'next-axle']);

/** What it will say is missing, before it is issued. */
const Missing = ({ sentences, overridden }: { readonly sentences: readonly string[]; readonly overridden: number }) => (
  <>
    <h2 className="certificate__head">
      {sentences.length === 0 ? nothingMissing(overridden) : 'It will say that these are missing'}
    </h2>
    <ul className="certificate__missing">
      {sentences.map((sentence) => (
        <li key={sentence}>
          <StateMark shape="not-measured" size={16} /> {sentence}
        </li>
      ))}
    </ul>
  </>
);

/** What was overridden is not missing, and is not quietly there either. */
function nothingMissing(overridden: number): string {
  if (overridden === 0) return 'Nothing asked for is missing';
  const what = overridden === 1 ? 'one thing was' : `${overridden} things were`;
  return `Nothing asked for is missing; ${what} overridden with a reason`;
}

function issueWords(working: boolean, incomplete: boolean, again: boolean): string {
  if (working) return 'Writing it …';
  return `Issue ${again ? 'it again' : 'the certificate'}${incomplete ? ' as incomplete' : ''}`;
}

function Earlier({ build, notebook }: { readonly build: Build; readonly notebook: Notebook | undefined }) {
  if (build.certificates.length === 0) return undefined;
  const since = notebook === undefined ? '' : sinceWords(notebook);
  return (
    <>
      <h2 className="certificate__head">Issued for this build</h2>
      <ul className="certificate__missing">
        {build.certificates.map((certificate) => (
          <li key={`${certificate.at} ${certificate.sha256}`}>
            {timeWords(certificate.at)}, {certificate.complete ? 'complete' : 'incomplete'},{' '}
            <span className="digits quiet">{certificate.sha256.slice(0, 12)}</span>
          </li>
        ))}
      </ul>
      {since === '' ? undefined : <p className="quiet">{since}</p>}
    </>
  );
}

/** What the last certificate does not have; empty where it has everything. */
function sinceWords(notebook: Notebook): string {
  const driven = roadTestSince(notebook);
  if (driven !== undefined)
    return `The road test of ${timeWords(driven)} came after the last certificate and is not on it. Issue it again, and it is.`;
  return hasGoneOn(notebook) ? 'The build has gone on since; a new certificate says so.' : '';
}
