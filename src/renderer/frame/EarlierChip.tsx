import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { type Assembly, assemblyName } from '../../shared/job/records/build.ts';
import type { Shape } from '../../shared/presentation/words/standing.ts';
import { StateMark } from '../parts/StateMark.tsx';
import '../parts/pick.css';
import './chip.css';

interface EarlierChipProps {
  readonly assemblies: readonly Assembly[];
  /** The one of them that is shown now. */
  readonly here: Assembly | undefined;
  readonly shapeOf: (assembly: Assembly) => Shape;
  readonly onChoose: (assembly: string) => void;
}

/** The assemblies for which the row has no room, behind one stop that names the one shown. */
export const EarlierChip = ({ assemblies, here, shapeOf, onChoose }: EarlierChipProps) => (
  <MenuTrigger>
    <Button className={`job-chip job-chip--earlier${here === undefined ? '' : ' job-chip--here'}`}>
      {here === undefined ? 'Earlier' : assemblyName(here)}
      <span aria-hidden="true" className="pick__arrow" />
    </Button>
    <Popover className="pick__popover" placement="bottom start">
      <Menu className="pick__list" aria-label="Earlier assemblies" onAction={(id) => onChoose(String(id))}>
        {assemblies.map((assembly) => (
          <MenuItem
            key={assembly.id}
            id={assembly.id}
            className="pick__item job-chip__item"
            textValue={assemblyName(assembly)}
          >
            <StateMark shape={shapeOf(assembly)} size={14} />
            {assemblyName(assembly)}
          </MenuItem>
        ))}
      </Menu>
    </Popover>
  </MenuTrigger>
);
