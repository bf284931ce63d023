/** Finds what makes an answer depend on when, where or how often it is asked: it has no place in shared-model. */
import { readFileSync } from 'node:fs';
import ts from 'typescript';

export interface ImpureWord {
  readonly file: string;
  readonly line: number;
  readonly word: string;
}

/** Globals that know the time, the machine or chance. */
const GLOBALS = new Set(['performance', 'crypto', 'globalThis', 'Intl']);
/** Members that do, of whatever object. */
const MEMBERS = new Set(['Date.now', 'Math.random']);
/** Methods whose answer depends on the language of the machine. */
const LOCAL_METHODS = /^(toLocale|localeCompare$)/;

/** Whether a name is a member's own: `evening.performance` is no global. */
const isMemberName = (node: ts.Identifier): boolean =>
  (ts.isPropertyAccessExpression(node.parent) ||
    ts.isPropertyAssignment(node.parent) ||
    ts.isPropertySignature(node.parent)) &&
  node.parent.name === node;

function impureWord(node: ts.Node): string | null {
  if (ts.isPropertyAccessExpression(node)) {
    const member = `${node.expression.getText()}.${node.name.text}`;
    if (MEMBERS.has(member)) return member;
    return LOCAL_METHODS.test(node.name.text) ? node.name.text : null;
  }
  if (ts.isNewExpression(node) && node.expression.getText() === 'Date' && !node.arguments?.length)
    return 'new Date()';
  if (ts.isCallExpression(node) && node.expression.getText() === 'Date') return 'Date()';
  return ts.isIdentifier(node) && GLOBALS.has(node.text) && !isMemberName(node) ? node.text : null;
}

/** The impure words in a TypeScript file, from the top; those in comments and texts do not count. */
export function impureWords(file: string, text: string = readFileSync(file, 'utf8')): ImpureWord[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: ImpureWord[] = [];
  const visit = (node: ts.Node): void => {
    const word = impureWord(node);
    if (word !== null)
      found.push({ file, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, word });
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
