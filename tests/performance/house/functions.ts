import { parseAst } from 'vite';
import type { SourceFile } from './sources.ts';

/** A function, arrow or method with a body of its own; a body that is one expression does not count. */
export interface FunctionSeen {
  readonly name: string;
  readonly path: string;
  readonly lines: number;
  readonly parameters: number;
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [member: string]: unknown;
}

const kinds = new Set(['FunctionDeclaration', 'FunctionExpression', 'ArrowFunctionExpression']);

/** Every function of a file, from the parsed code. */
export function functionsOf({ path, text }: SourceFile): readonly FunctionSeen[] {
  const found: FunctionSeen[] = [];
  const visit = (node: Node, name: string): void => {
    const body = node['body'];
    if (kinds.has(node.type) && isNode(body) && body.type === 'BlockStatement') {
      const lines = text.slice(node.start, node.end).split('\n').length;
      found.push({ name: nameOf(node['id']) ?? name, path, lines, parameters: listOf(node['params']).length });
    }
    const own = nameOf(node['id']) ?? nameOf(node['key']) ?? name;
    for (const member of Object.values(node)) for (const child of listOf(member)) visit(child, own);
  };
  const program: unknown = parseAst(text, { lang: path.endsWith('x') ? 'tsx' : 'ts' });
  if (isNode(program)) visit(program, path);
  return found;
}

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null && 'type' in value;

const listOf = (value: unknown): readonly Node[] => (Array.isArray(value) ? value : [value]).filter(isNode);

const nameOf = (value: unknown): string | undefined =>
  isNode(value) && typeof value['name'] === 'string' ? value['name'] : undefined;
