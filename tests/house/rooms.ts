/** The table of rooms as data: which room may import which, which packages it may use, and whether it must be pure. */
export interface Room {
  readonly name: string;
  /** Rooms whose door it may import. */
  readonly imports: readonly string[];
  /** Rooms of which it may import types only. */
  readonly types?: readonly string[];
  /** npm packages by name; Node's own are for rooms that are not pure. */
  readonly packages: readonly string[];
  readonly pure: boolean;
  /** Files of a pure room that stand at the edge: they may read files, and say so here. */
  readonly edges?: readonly string[];
  /** Its folders, each importing only those before it. Files at its top are shared, and may open any of them. */
  readonly folders?: readonly string[];
  /** A room without a door, whose files are imported one by one: page components. */
  readonly open?: boolean;
}

const flow = ['units', 'problem', 'spec', 'solid', 'design'];

export const rooms: readonly Room[] = [
  { name: 'units', imports: [], packages: [], pure: true },
  { name: 'problem', imports: ['units'], packages: [], pure: true },
  { name: 'spec', imports: ['units', 'problem'], packages: ['zod'], pure: true },
  { name: 'solid', imports: ['units'], packages: ['clipper2-ts'], pure: true },
  { name: 'read', imports: ['units', 'problem', 'spec'], packages: ['yaml'], pure: true, edges: ['src/read/files.ts'] },
  { name: 'design', imports: ['units', 'problem', 'spec', 'solid'], packages: [], pure: true },
  /** A wish may be a price, so the answer reads the price's type. */
  { name: 'assess', imports: flow, types: ['price'], packages: [], pure: true },
  { name: 'takeoff', imports: flow, packages: [], pure: true },
  { name: 'price', imports: ['units', 'problem', 'spec', 'takeoff'], packages: [], pure: true },
  { name: 'draw', imports: ['units', 'spec', 'solid', 'design', 'assess', 'takeoff'], packages: [], pure: true },
  { name: 'figures', imports: ['units', 'spec', 'solid', 'design', 'assess', 'takeoff', 'price'], packages: ['zod'], pure: true },
  /** Terms are told by their digest. */
  { name: 'client', imports: ['units', 'spec', 'figures', 'draw', 'reply'], packages: ['markdown-it'], pure: true },
  /** The rules of care are checked like a spec: what is wrong with them is a problem. */
  { name: 'care', imports: ['units', 'problem', 'spec'], types: ['design', 'assess', 'takeoff'], packages: [], pure: true },
  { name: 'reply', imports: ['units'], packages: [], pure: true },
  /** Fonts and the rasteriser are opened at the edge. */
  {
    name: 'write',
    imports: ['units', 'draw'],
    packages: ['@resvg/resvg-js', 'fontkit'],
    pure: true,
    edges: ['src/write/fonts.ts', 'src/write/png.ts'],
  },
  {
    name: 'write/client',
    imports: ['units', 'draw', 'client', 'reply', 'write'],
    types: ['care'],
    packages: ['pdfkit', '@signpdf', 'nodemailer', 'ical-generator', 'uqr'],
    pure: true,
  },
  { name: 'write/workshop', imports: ['units', 'draw', 'figures', 'write'], packages: ['pdfkit'], pure: true },
  { name: 'compute', imports: [...flow, 'assess', 'takeoff', 'price', 'draw', 'figures', 'client'], packages: [], pure: true },
  /** Keys come in as bytes; where they lie is the command line's matter. */
  { name: 'sign', imports: ['units', 'problem'], packages: ['@signpdf', 'node-forge'], pure: true },
  {
    name: 'record',
    imports: ['units', 'problem', 'spec', 'reply', 'sign', 'read'],
    packages: ['zod'],
    pure: false,
    folders: ['disk', 'chain', 'standing', 'proof', 'writing'],
  },
  { name: 'site/shared', imports: [], packages: ['astro', '@fontsource'], pure: true, open: true },
  /** The script of the answer runs in the reader's browser: the day of a letter is the reader's own. */
  {
    name: 'site/client',
    imports: ['client', 'reply', 'site/shared'],
    types: ['care'],
    packages: ['astro', '@fontsource'],
    pure: true,
    edges: ['src/site/client/answer/main.ts'],
  },
  {
    name: 'site/workshop',
    imports: ['units', 'problem', 'figures', 'draw', 'takeoff', 'price', 'site/shared'],
    // The maker's page of a claim shows the very sheet of which a copy may leave.
    types: ['client'],
    packages: ['astro', '@fontsource'],
    pure: true,
  },
  /** Compiles the templates and renders pages in this process: the edge of the site. */
  {
    name: 'site',
    imports: ['units', 'problem', 'client', 'figures', 'draw', 'takeoff', 'price', 'site/client', 'site/workshop', 'site/shared'],
    types: ['care'],
    packages: ['astro', 'vite'],
    pure: false,
  },
  {
    name: 'cli',
    imports: [
      ...flow,
      'read',
      'assess',
      'takeoff',
      'price',
      'draw',
      'figures',
      'client',
      'care',
      'reply',
      'write',
      'write/client',
      'write/workshop',
      'compute',
      'sign',
      'record',
      'site',
      'site/client',
      'site/workshop',
    ],
    packages: ['fontkit', 'postal-mime', 'yaml'],
    pure: false,
    folders: ['draft', 'hearing', 'order', 'handing', 'on-record', 'change', 'make', 'offer'],
  },
];

/** The room in which a file stands: the longest name that fits its path below src/. */
export function roomOf(path: string): Room | undefined {
  const below = path.replace(/^src\//, '');
  if (below === 'compute.ts') return rooms.find((room) => room.name === 'compute');
  return rooms.filter((room) => below.startsWith(`${room.name}/`)).sort((a, b) => b.name.length - a.name.length)[0];
}

/** Files by which a room may be entered from outside. */
export function isDoor(room: Room, path: string): boolean {
  if (room.open === true) return true;
  if (room.name === 'compute') return path === 'src/compute.ts';
  if (room.name === 'site') return path === 'src/site/pages.ts' || path === 'src/site/index.ts';
  return path === `src/${room.name}/index.ts`;
}
