/**
 * What a build has to cover, line by line, and the steps and checks that cover it: `step` or `step/check`, for the units
 * that a condition names. Common practice of the trade.
 */

/** Which units get it: those with a sash, a fixed light, a side-hung sash, a divider and its joint, a need of the room. */
export type For =
  | 'all'
  | 'sash'
  | 'fixed'
  | 'side-hung'
  | 'divider'
  | 'ported'
  | 'cleated'
  | 'cleated transom'
  | 'not injected'
  | 'restrictor'
  | 'lugs'
  | 'fixing holes'
  | 'slotted'
  | 'divided sash'
  | 'opening proven'
  | 'fitted';

interface Counts {
  readonly opening: bigint;
  readonly fixed: bigint;
  readonly side_hung: bigint;
  readonly dividers: bigint;
  readonly ported: bigint;
  readonly cleated: bigint;
  readonly levels: bigint;
  readonly escape: boolean;
  readonly restrictor: boolean;
  readonly fittings: readonly string[];
}

export function isFor(what: For, unit: Counts): boolean {
  switch (what) {
    case 'all':
      return true;
    case 'sash':
      return unit.opening > 0n;
    case 'fixed':
      return unit.fixed > 0n;
    case 'side-hung':
      return unit.side_hung > 0n;
    case 'divider':
      return unit.dividers > 0n;
    case 'ported':
      return unit.ported > 0n;
    case 'cleated':
      return unit.cleated > 0n;
    case 'cleated transom':
      return unit.cleated > 0n && unit.levels > 0n;
    case 'not injected':
      return !unit.fittings.includes('injected-corners');
    case 'restrictor':
      return unit.opening > 0n && unit.restrictor;
    case 'lugs':
      return unit.fittings.includes('lugs');
    case 'fixing holes':
      return unit.fittings.includes('fixing-holes');
    case 'slotted':
      return unit.levels > 0n || unit.cleated > 0n;
    case 'divided sash':
      return unit.dividers > 0n && unit.opening > 0n;
    case 'opening proven':
      return unit.opening > 0n && (unit.escape || unit.restrictor);
    case 'fitted':
      return unit.fittings.length > 0;
  }
}

export interface Line {
  readonly line: string;
  readonly covered: readonly (readonly [ids: string, units: For])[];
}

export const LINES: readonly Line[] = [
  {
    line: 'tools, materials and kit; drawing and cutting list; order; incoming profile, glass, hardware',
    covered: [
      ['stock.tools/count stock.tools/dates stock.kit/corners stock.kit/rest', 'all'],
      [
        'stock.profile/batch stock.profile/straight stock.seals/sample stock.sealant/in-date stock.adhesive/lot',
        'all',
      ],
      ['order.papers/revision order.papers/setout order.hand/sentence order.hand/range order.freeze', 'all'],
      ['pack.list/agrees pack.list/labels glass.size/sizes glass.look/make-up', 'all'],
      [
        'stock.hardware/match stock.kit/stays stock.kit/gearboxes order.stay/chart order.hand/hardware-list',
        'sash',
      ],
      ['order.papers/safety-glass', 'all'],
    ],
  },
  {
    line: 'saw set-up and first-off; cutting; labels at the datum end',
    covered: [
      ['saw.first-off/finish', 'all'],
      ['cut.frame/lengths cut.frame/labels cut.frame/faces cut.beads/lengths', 'all'],
      [
        'cut.addon/lengths machine.addon-clean/labels cut.sash/lengths cut.sash/labels cut.sash/sticker',
        'sash',
      ],
      ['cut.divider/length cut.divider/label', 'divider'],
    ],
  },
  {
    line: 'routing: sash bottom rails, both kinds of divider, the handle slot at its depth',
    covered: [
      ['machine.sash-slots/inner machine.handle-slot/centre machine.handle-slot/depth', 'sash'],
      ['machine.divider-rout/gap machine.divider-rout/depth machine.divider-clean/face', 'divider'],
    ],
  },
  {
    line: 'punching and drilling: cleat holes, drains, divider holes, jig holes, level cleats',
    covered: [
      ['machine.frame-lines/datum machine.frame-cleats/hand machine.frame-lines/inner', 'all'],
      ['machine.frame-slots/burr machine.frame-slots/wall machine.frame-clean/list', 'all'],
      ['machine.addon-cleats/hand machine.addon-slots/line machine.addon-clean', 'sash'],
      ['machine.sash-cleats/hand machine.sash-clean/list', 'sash'],
      ['machine.divider-lines/lines', 'divider'],
      ['machine.divider-clean/list', 'divider'],
      ['machine.divider-punch/list', 'slotted'],
      ['machine.divider-punch/ways', 'cleated'],
      ['machine.port-holes/line machine.port-holes/clear', 'ported'],
      ['machine.cleat-holes/ways levels.cleats/count levels.cleats/line levels.cleats/screws', 'cleated'],
    ],
  },
  {
    line: 'level dividers on before the frame is closed; small set screws, right key',
    covered: [
      ['levels.seat/pads levels.seat/screws', 'cleated'],
      ['levels.seat/down', 'cleated transom'],
    ],
  },
  {
    line: 'frame: chevrons and cleats, sealant, corners drawn up, level, wiped; ported divider on its lines',
    covered: [
      ['frame.dry-fit/chevrons frame.dry-fit/cleats frame.seal/faces', 'all'],
      ['frame.seal/adhesive', 'not injected'],
      ['frame.close/corners frame.close/straight frame.close/wiped', 'all'],
      ['square.frame/square square.frame/feel', 'all'],
      ['dividers.port/ports', 'ported'],
      ['dividers.position/line dividers.recheck/square', 'divider'],
    ],
  },
  {
    line: 'add-on frame: holes, cleats, relief, sealant, heads flush, gaskets, drains, screws sealed, beads',
    covered: [
      ['machine.addon-holes/ends machine.addon-holes/sunk machine.addon-clean/pitch', 'sash'],
      [
        'addon.close/cleats addon.close/sealed addon.mitres addon.square/square addon.gasket/unstretched addon.gasket/joints',
        'sash',
      ],
      ['addon.fit/bottom addon.fit/screws addon.fit/flush addon.opening/square', 'sash'],
      ['addon.seal/heads addon.outer-gasket/beads addon.outer-gasket/corners', 'sash'],
      ['machine.addon-relief/seat', 'divided sash'],
    ],
  },
  {
    line: 'sash: slot first, cleats, sealant, heads flush, squareness, gaskets',
    covered: [
      ['sash.dry-fit/slot sash.dry-fit/chevrons sash.seal/faces sash.close/heads', 'sash'],
      ['square.sash/square square.sash/feel seals.outer/joint seals.outer/over seals.inner/corners', 'sash'],
    ],
  },
  {
    line: 'glazing: drains proven, packers, identity, handle-side bead first, the rest',
    covered: [
      ['glaze.gasket glaze.size glaze.set/label glaze.set/even glaze.pack/pattern glaze.pack/slots', 'all'],
      ['glaze.beads/gap glaze.wedge/beads glaze.wedge/view', 'all'],
      ['glaze.drains-fixed/slots', 'fixed'],
      ['glaze.drains-sash/slots glaze.set/first glaze.set/clear glaze.size/sash', 'sash'],
      ['glaze.pack/brace glaze.brace/high', 'side-hung'],
    ],
  },
  {
    line: 'hardware: handle, gearbox, rods, stays, sash in, gasket clear, keeps, last fixings, central seal',
    covered: [
      ['hardware.holes/place hardware.gearbox/open hardware.gearbox/cap hardware.rods/screws', 'sash'],
      ['hardware.stays/line hardware.stays/end hang.sash/spacers hardware.stays/screws', 'sash'],
      ['hang.sash/swing hang.gasket/slots hang.keeps/pushed hang.keeps/screws hang.gaps/laps', 'sash'],
      ['adjust.gaps/laps adjust.stays/screws adjust.stays/locks seals.central/corners', 'sash'],
      ['order.needs hang.opening', 'opening proven'],
      ['hang.restrictor', 'restrictor'],
    ],
  },
  {
    line: 'what an order may ask for besides: coating, ventilator, wall fixings, injected corners, sub-sill, coupler, run-up',
    covered: [
      ['stock.coating/mean stock.kit/further machine.ventilator/clear frame.ventilate/works', 'fitted'],
      ['machine.injection/holes frame.inject/full frame.sub-sill/caps cut.sub-sill', 'fitted'],
      ['frame.lugs/ends', 'lugs'],
      ['machine.fixing-holes/ends', 'fixing holes'],
      ['frame.coupler/side hardware.run-up/fitted adjust.run-up/works', 'fitted'],
    ],
  },
  {
    line: 'final inspection, label, protection, stillage, dispatch',
    covered: [
      [
        'final.size/square final.look/layout final.look/faces final.look/touched final.release/complete',
        'all',
      ],
      [
        'label.match/mark label.protect/bag label.protect/corners dispatch.stillage/stands dispatch.stillage/note',
        'all',
      ],
    ],
  },
];

/** Ids of a line's steps and checks for the units of one condition. */
export const idsIn = (ids: string): string[] => ids.split(' ');
