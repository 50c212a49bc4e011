import { mkdirSync, writeFileSync } from 'node:fs';
import { customElementJetBrainsPlugin } from 'custom-element-jet-brains-integration';
import { customElementVsCodePlugin } from 'custom-element-vs-code-integration';
import { jsxTypesPlugin } from '@wc-toolkit/jsx-types';

const isOurs = (declaration) => declaration.kind === 'class' && declaration.customElement === true;
const isPublic = ({ privacy, static: still, name }) =>
  privacy === undefined && !still && !name.startsWith('#') && !/^on[A-Z]|Callback$/.test(name);

/**
 * Makes of the analyzed classes a manifest of what a page may use: the elements with the tag that their `static tag` names,
 * their public members, and the events. Internals leave.
 */
const publicFace = () => {
  const tags = new Map();
  return {
    name: 'public-face',
    analyzePhase({ ts, node }) {
      if (!ts.isClassDeclaration(node) || !node.name) return;
      const tag = node.members.find(
        (member) => ts.isPropertyDeclaration(member) && member.name.getText() === 'tag',
      );
      if (tag?.initializer && ts.isStringLiteral(tag.initializer))
        tags.set(node.name.getText(), tag.initializer.text);
    },
    packageLinkPhase({ customElementsManifest: manifest }) {
      for (const module of manifest.modules) {
        for (const declaration of module.declarations) {
          if (!tags.has(declaration.name)) continue;
          declaration.tagName = tags.get(declaration.name);
          declaration.customElement = true;
          declaration.members = (declaration.members ?? []).filter(isPublic);
          // Events that the class doc names; others are seen in passing and go to parts of the element.
          declaration.events = (declaration.events ?? []).filter((e) => e.name && e.description);
          declaration.superclass = { name: 'HTMLElement' };
        }
        const events = /shared\/events\//.test(module.path);
        module.declarations = module.declarations.filter(
          (declaration) =>
            (isOurs(declaration) && declaration.tagName) ||
            (events && declaration.kind === 'class'),
        );
        const kept = new Set(module.declarations.map(({ name }) => name));
        module.exports = (module.exports ?? []).filter(({ declaration }) =>
          kept.has(declaration?.name),
        );
        // Where the built classes are: every class comes from the package's main entry.
        module.path = 'dist/index.js';
      }
      const declarations = manifest.modules.flatMap((module) => module.declarations);
      const names = declarations.filter(isOurs);
      manifest.modules = [
        {
          kind: 'javascript-module',
          path: 'dist/index.js',
          declarations,
          exports: declarations.map(({ name }) => ({
            kind: 'js',
            name,
            declaration: { name, module: 'dist/index.js' },
          })),
        },
        ...names.map(({ name, tagName }) => ({
          kind: 'javascript-module',
          path: `dist/define/${tagName}.js`,
          declarations: [],
          exports: [
            {
              kind: 'custom-element-definition',
              name: tagName,
              declaration: { name, module: 'dist/index.js' },
            },
          ],
        })),
      ];
    },
  };
};

/** Types of the elements in Vue's templates, in the shape that Vue's guide on web components gives. */
const vueTypes = () => ({
  name: 'vue-types',
  packageLinkPhase({ customElementsManifest: manifest }) {
    const elements = manifest.modules.flatMap((module) => module.declarations).filter(isOurs);
    const settable = ({ members }) =>
      members.filter(({ kind, readonly }) => kind === 'field' && !readonly).map(({ name }) => name);
    const lines = elements.map(({ name, tagName, members, events = [] }) => {
      const props = settable({ members }).map((prop) => `'${prop}'`);
      const fired = events.map((event) => `'${event.name}': ${event.type?.text ?? 'Event'};`);
      return `    '${tagName}': KitElement<Kit.${name}, ${props.join(' | ')}, { ${fired.join(' ')} }>;`;
    });
    const text = `import type { EmitFn, HTMLAttributes, PublicProps } from 'vue';
import type * as Kit from './components/index.js';

type Emits<E extends Record<string, Event>> = EmitFn<{ [K in keyof E]: (event: E[K]) => void }>;
type KitElement<T extends HTMLElement, P extends keyof T, E extends Record<string, Event>> = new () => T & {
  $props: HTMLAttributes & Partial<Pick<T, P>> & PublicProps & { [K in keyof E as \`on\${Capitalize<Camel<K & string>>}\`]?: (event: E[K]) => void };
  $emit: Emits<E>;
};
type Camel<S extends string> = S extends \`\${infer A}-\${infer B}\` ? \`\${A}\${Capitalize<Camel<B>>}\` : S;

declare module 'vue' {
  interface GlobalComponents {
${lines.join('\n')}
  }
}
`.replace(/: (\w+Event);/g, (all, type) => (type === 'Event' ? all : `: Kit.${type};`));
    mkdirSync('dist/types', { recursive: true });
    writeFileSync('dist/types/vue.d.ts', text);
  },
});

const outdir = 'dist';
/** Types and data that follow from the manifest: JSX (React 19 and others), Vue 3, two families of editors. */
export default {
  globs: ['components/**/*.ts'],
  exclude: ['components/**/define.ts', 'components/define.ts', 'components/everything.ts'],
  outdir,
  litelement: true,
  dependencies: false,
  plugins: [
    publicFace(),
    jsxTypesPlugin({
      outdir: 'dist/types',
      fileName: 'jsx.d.ts',
      globalTypePath: './components/index.js',
    }),
    vueTypes(),
    customElementVsCodePlugin({
      outdir,
      htmlFileName: 'html-data.json',
      cssFileName: 'css-data.json',
    }),
    customElementJetBrainsPlugin({
      outdir,
      webTypesFileName: 'web-types.json',
      packageJson: false,
    }),
  ],
};
