import { isNone } from '../../shared/basics/result.ts';
import { assemblyName, type Build, readNotebook } from '../../shared/job/records/build.ts';
import { endsOf, limitedQuantities } from '../../shared/job/records/specSheet.ts';
import { type CertificateData, type CheckHashed, type Judged } from '../../shared/job/certifying/certificateData.ts';
import { contentHash } from '../certificate/hash.ts';
import { issueOf } from '../certificate/issue.ts';
import type { ExportedFile, Source } from './source.ts';

/**
 * Results as QIF 3.0 (ISO 23952): of every number that was held against a limit, the characteristic, its limits and whether
 * it passed. Runout is the standard's own characteristic; backlash, end play and torque have none there and go as
 * characteristics of units defined in the file. Its schema could not be had: the file follows a small example of results.
 */
export function qifFile({ database, notebook, identity }: Source, title: string): ExportedFile {
  const { data } = issueOf(database, notebook, identity);
  return { name: `${title}.qif`, bytes: qifOf(data) };
}

type Limited = CheckHashed['limits'][number];

/** One characteristic with the four ids under which its parts know each other. */
interface Item {
  readonly name: string;
  readonly judged: Limited;
  readonly value: number;
  readonly first: number;
}

const idsEach = 4;

export function qifOf(data: CertificateData): string {
  const build = readNotebook(data.build, data.notebook);
  const items = itemsOf(build, data.judged);
  const results = items.length * idsEach + 1;
  const count = items.length;
  const parts = (one: (item: Item) => string): string => items.map(one).join('');
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n',
    `<QIFDocument xmlns="http://qifstandards.org/xsd/qif3" versionQIF="3.0.0" idMax="${results}">`,
    `<QPId>${uuidOf(data)}</QPId>`,
    units,
    '<Characteristics>',
    `<CharacteristicDefinitions n="${count}">${parts(definition)}</CharacteristicDefinitions>`,
    `<CharacteristicNominals n="${count}">${parts(nominal)}</CharacteristicNominals>`,
    `<CharacteristicItems n="${count}">${parts(item)}</CharacteristicItems>`,
    '</Characteristics>',
    `<Results><MeasurementResultsSet n="1"><MeasurementResults id="${results}">`,
    `<MeasuredCharacteristics><CharacteristicMeasurements n="${count}">${parts(measurement)}</CharacteristicMeasurements></MeasuredCharacteristics>`,
    `<InspectionStatus><InspectionStatusEnum>${data.judged.complete ? 'PASS' : 'FAIL'}</InspectionStatusEnum></InspectionStatus>`,
    '</MeasurementResults></MeasurementResultsSet></Results></QIFDocument>\n',
  ].join('');
}

const units =
  '<FileUnits><PrimaryUnits><LinearUnit><SIUnitName>meter</SIUnitName><UnitName>mm</UnitName><UnitConversion><Factor>0.001</Factor></UnitConversion></LinearUnit></PrimaryUnits>' +
  '<UserDefinedUnits n="2"><UserDefinedUnit><WhatIsMeasured>play</WhatIsMeasured><UnitName>mm of play</UnitName></UserDefinedUnit>' +
  '<UserDefinedUnit><WhatIsMeasured>torque</WhatIsMeasured><UnitName>N.m</UnitName></UserDefinedUnit></UserDefinedUnits></FileUnits>';

/** A number of the last assembly of each phase that was held against a limit of its own basis. */
function itemsOf(build: Build, judged: Judged): readonly Item[] {
  const found = judged.assemblies.flatMap(({ id, checks }) => {
    const assembly = build.assemblies.find((one) => one.id === id);
    const place = assembly === undefined ? id : assemblyName(assembly);
    return checks.flatMap(({ limits }) =>
      limits.flatMap((one) =>
        isNone(one.value) || one.otherBasis === true || one.verdict === 'not-measured'
          ? []
          : [{ name: `${place}: ${one.limit.quantity}`, judged: one, value: one.value }],
      ),
    );
  });
  return found.map((one, index) => ({ ...one, first: index * idsEach + 1 }));
}

const isRunout = ({ judged }: Item): boolean => judged.limit.quantity.endsWith('-runout');
const kindOf = (one: Item): string => (isRunout(one) ? 'CircularRunout' : 'UserDefinedUnit');
const unitOf = ({ judged }: Item): string =>
  limitedQuantities[judged.limit.quantity] === 'torque' ? 'N.m' : 'mm of play';
const attribute = (one: Item): string => (isRunout(one) ? '' : ` unitName="${unitOf(one)}"`);

function definition(one: Item): string {
  const name = `${kindOf(one)}CharacteristicDefinition`;
  const { max } = endsOf(one.judged.limit);
  return isRunout(one)
    ? `<${name} id="${one.first}"><ToleranceValue>${max ?? 0}</ToleranceValue></${name}>`
    : `<${name} id="${one.first}"/>`;
}

function nominal(one: Item): string {
  const name = `${kindOf(one)}CharacteristicNominal`;
  const { min, max } = endsOf(one.judged.limit);
  const end = (tag: string, value: number | undefined): string =>
    value === undefined || isRunout(one) ? '' : `<${tag}${attribute(one)}>${value}</${tag}>`;
  const asLimit = isRunout(one) ? '' : '<DefinedAsLimit>true</DefinedAsLimit>';
  return `<${name} id="${one.first + 1}"><CharacteristicDefinitionId>${one.first}</CharacteristicDefinitionId>${end('MaxValue', max)}${end('MinValue', min)}${asLimit}</${name}>`;
}

function item(one: Item): string {
  const name = `${kindOf(one)}CharacteristicItem`;
  return `<${name} id="${one.first + 2}"><Name>${escaped(one.name)}</Name><CharacteristicNominalId>${one.first + 1}</CharacteristicNominalId></${name}>`;
}

function measurement(one: Item): string {
  const name = `${kindOf(one)}CharacteristicMeasurement`;
  const status = { within: 'PASS', outside: 'FAIL', 'too-close': 'UNKNOWN', 'not-measured': 'UNKNOWN' }[
    one.judged.verdict
  ];
  return `<${name} id="${one.first + 3}"><Status><CharacteristicStatusEnum>${status}</CharacteristicStatusEnum></Status><CharacteristicItemId>${one.first + 2}</CharacteristicItemId><Value${attribute(one)}>${one.value}</Value></${name}>`;
}

const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** The same results are the same document: a UUID (RFC 9562, version 8) from the hash of the readings and the build. */
function uuidOf({ readings, build }: CertificateData): string {
  const hex = contentHash({ build, readings });
  const variant = '89ab'[Number.parseInt(hex[16] ?? '0', 16) % 4] ?? '8';
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-${variant}${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}
