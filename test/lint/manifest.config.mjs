export default {
  globs: ['components/**/*.ts'],
  exclude: ['components/**/define.ts', 'components/define.ts', 'components/everything.ts'],
  outdir: 'dist',
  litelement: true,
  dependencies: false,
};
