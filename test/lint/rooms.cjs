/** The rooms of the core and the directions in which they may import. `base` is open to all. */
const may = {
  base: [],
  units: [],
  colour: [],
  geometry: [],
  picture: ['colour', 'geometry', 'units'],
  value: ['picture', 'colour', 'units'],
  mass: ['value', 'geometry', 'units', 'colour'],
  stroke: ['mass', 'geometry', 'value', 'units'],
  paint: ['colour', 'units'],
  // A wet swatch is judged as it will have dried, so the board's rules know the drying of paint.
  swatch: ['picture', 'colour', 'geometry', 'paint', 'units'],
  // A painting is judged by its picture's lightness and bands.
  check: ['mass', 'paint', 'geometry', 'picture', 'value', 'colour', 'units'],
  plan: [
    'units',
    'colour',
    'geometry',
    'picture',
    'value',
    'mass',
    'stroke',
    'paint',
    'swatch',
    'check',
  ],
};

const rooms = Object.entries(may).map(([room, others]) => ({
  name: `room-${room}`,
  comment: `core/${room} imports only: ${['base', ...others].join(', ')}`,
  severity: 'error',
  from: { path: `^core/${room}/` },
  to: { path: '^core/', pathNot: `^core/(${[room, 'base', ...others].join('|')})/` },
}));

module.exports = {
  forbidden: [
    ...rooms,
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'core-knows-no-elements',
      severity: 'error',
      from: { path: '^core/' },
      to: { path: '^components/|node_modules/(lit|@lit)/' },
    },
    {
      name: 'comlink-only-in-worker',
      severity: 'error',
      from: { pathNot: '^core/worker/' },
      to: { path: 'node_modules/comlink' },
    },
    {
      name: 'elements-use-the-public-core',
      severity: 'error',
      from: { path: '^components/' },
      to: { path: '^core/', pathNot: '^core/(index|worker/(client|slices))\\.ts$' },
    },
    {
      name: 'elements-do-not-know-each-other',
      severity: 'error',
      from: { path: '^components/([a-z]+-[a-z-]+)/' },
      to: { path: '^components/[a-z]+-[a-z-]+/', pathNot: '^components/$1/' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { extensions: ['.ts', '.js'] },
  },
};
