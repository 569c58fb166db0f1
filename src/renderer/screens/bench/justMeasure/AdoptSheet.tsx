import { useState } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { LooseMeasurement } from '../../../../shared/contract/builds.ts';
import { assemblyName, currentAssembly } from '../../../../shared/job/records/build.ts';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import { checksOf, streamOf } from '../../../../shared/job/checks/checks.ts';
import { isDescribed } from '../../../../shared/job/checks/readiness.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { useBuilds } from '../../../stores/builds.ts';
import { adoptMeasurement, openBuild, useNotebook } from '../../../stores/notebook.ts';
import { useSession } from '../../../stores/session.ts';
import { resultBrief } from '../../../../shared/presentation/words/results.ts';
import '../settings/settings.css';

interface AdoptSheetProps {
  readonly loose: LooseMeasurement;
  readonly onClose: () => void;
}

/** Into which build, and as which of its steps, a kept number goes: always into the assembly that is on the stand. */
export function AdoptSheet({ loose, onClose }: AdoptSheetProps) {
  const units = useSession((session) => session.units);
  const builds = useBuilds((seen) => seen.builds) ?? [];
  const build = useNotebook((open) => open.build);
  const [check, setCheck] = useState<CheckId>();
  const assembly = build === undefined ? undefined : currentAssembly(build);
  const fitting =
    build === undefined || assembly === undefined || !isDescribed(build)
      ? []
      : checksOf(assembly.phase, build.makeUp).filter((one) => streamOf[one.method] === loose.settings.kind);
  const chosen = fitting.find((one) => one.id === check) ?? fitting[0];
  const adopt = async (): Promise<void> => {
    if (assembly === undefined || chosen === undefined) return;
    if (await adoptMeasurement({ loose: loose.id, assembly: assembly.id, check: chosen.id })) onClose();
  };
  return (
    <ModalOverlay className="sheet-over" isOpen onOpenChange={(open) => !open && onClose()} isDismissable>
      <Modal className="sheet">
        <Dialog className="sheet__dialog">
          <Heading slot="title" className="sheet__title">
            Put {resultBrief(loose.result, units)} into a build
          </Heading>
          <div className="sheet__part adopt">
            <Pick
              label="Build"
              value={build?.id}
              onChange={(id) => void openBuild(id)}
              options={builds.map((one) => ({
                value: one.id,
                words: `${one.title}${one.standsAt === '' ? '' : `, ${one.standsAt.toLowerCase()}`}`,
              }))}
            />
            {assembly === undefined || fitting.length === 0 ? (
              <p>
                {build === undefined
                  ? 'Choose the build.'
                  : 'Nothing on the stand of this build asks for such a number.'}
              </p>
            ) : (
              <Choice
                label={`As which step of ${assemblyName(assembly).toLowerCase()}`}
                value={chosen?.id}
                onChange={setCheck}
                options={fitting.map((one) => ({ value: one.id, words: one.title }))}
              />
            )}
          </div>
          <footer className="sheet__foot">
            <Button onPress={onClose}>Leave it</Button>
            <Button look="next" onPress={() => void adopt()} disabled={chosen === undefined}>
              Put it in
            </Button>
          </footer>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
