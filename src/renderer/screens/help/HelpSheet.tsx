import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { Build } from '../../../shared/job/records/build.ts';
import { checkOf } from '../../../shared/job/checks/checks.ts';
import { helpPicture } from '../../../shared/presentation/drawing/help/pictures.ts';
import { shopCautions } from '../../../shared/presentation/words/cautions.ts';
import { type HelpTopic, helpTopics, pictureOf } from '../../../shared/presentation/words/help.ts';
import { Drawing } from '../../instruments/Drawing.tsx';
import { Button } from '../../parts/Button.tsx';
import { useNotebook } from '../../stores/notebook.ts';
import { type Route, useRoute } from '../../stores/route.ts';
import { setHelpOpen, useHelpOpen } from './open.ts';
import '../bench/settings/settings.css';
import './help.css';

/** How the thing on the stage is taken, with a drawing, and the cautions: one key away from every step. */
export function HelpSheet() {
  const open = useHelpOpen((help) => help.open);
  return (
    <ModalOverlay className="sheet-over" isOpen={open} onOpenChange={setHelpOpen} isDismissable>
      <Modal className="sheet">
        <Dialog className="sheet__dialog">
          <Taken />
          <footer className="sheet__foot">
            <p className="quiet">The maker’s manual for this axle, local rules and a qualified person go first.</p>
            <Button look="next" onPress={() => setHelpOpen(false)}>
              Close
            </Button>
          </footer>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

/** What is asked on the stage, and how it is taken. */
function Taken() {
  const route = useRoute((state) => state.route);
  const build = useNotebook((open) => open.build);
  const { topic, how } = helpFor(route, build);
  return (
    <>
      <Heading slot="title" className="sheet__title">
        {topic.title}
      </Heading>
      <div className="help">
        <section className="help__taken">
          {topic.picture === undefined ? undefined : (
            <Drawing scene={helpPicture(topic.picture)} className="help__picture" />
          )}
          {how === undefined ? undefined : <p>{how}</p>}
          <ol className="help__steps">
            {topic.steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </section>
        <Cautions />
      </div>
    </>
  );
}

const Cautions = () => (
  <section className="help__cautions">
    <h3>Cautions</h3>
    <ul>
      {shopCautions.map(({ about, words }) => (
        <li key={about}>
          <strong>{about}.</strong> {words}
        </li>
      ))}
    </ul>
  </section>
);

interface HelpHere {
  readonly topic: HelpTopic;
  /** What this very check asks, in the words of this axle. */
  readonly how?: string;
}

function helpFor(route: Route, build: Build | undefined): HelpHere {
  if (route.at === 'check' || route.at === 'settle') {
    const check = checkOf(route.check, build?.makeUp);
    const picture = pictureOf(check);
    const topic = { ...helpTopics[check.method], title: check.title };
    return { topic: picture === undefined ? topic : { ...topic, picture }, how: check.how };
  }
  if (route.at === 'painting' || route.at === 'meaning' || route.at === 'photo') return { topic: helpTopics.mark };
  if (route.at === 'swap') return { topic: helpTopics.shims };
  if (route.at === 'just-measure') return { topic: helpTopics.backlash };
  return { topic: theWay };
}

/** Where nothing is being taken: the way of a whole job. */
const theWay: HelpTopic = {
  title: 'The way of a job',
  picture: 'backlash',
  steps: [
    'The green button says what comes next; the pedal or PgDn presses it.',
    'Describe the axle, and enter the limits from the maker’s manual with their source.',
    'As found, before anything is loosened; then what shows as it comes apart.',
    'Trials: measure, paint, draw the mark; the plan says which shim, a card what goes in.',
    'The final assembly, the certificate, the road test.',
  ],
};
