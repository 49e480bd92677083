export const WINDOW_MESSAGES = {
  'set.missing': {
    what: 'a profile set lacks a size that the program needs',
    todo: 'Add a formula of that name; the manual lists the names that are needed.',
  },
  'set.circular': {
    what: 'formulas of a profile set need one another in a ring',
    todo: 'Write one of them without the other.',
  },
  'set.unknown': {
    what: 'a profile set refers to something it does not hold',
    todo: 'Use one of the names listed, or add what is missing.',
  },
  'order.joint': {
    what: 'a divider is cleated to another divider',
    todo: 'Order it with the ported joint, or end it on the frame.',
  },
  'order.fitting': {
    what: 'a fitting is ordered that nothing of the unit can take, or two that exclude each other',
    todo: 'Take it out of "fittings", or change the light.',
  },
  'set.no-clearance': {
    what: 'two things can meet in one wall of a part, and no clearance says how near they may come',
    todo: 'Add a rule for the pair under "clearances"; "least: 0" says that they may meet.',
  },
  'set.unused': {
    what: 'a constant or size of a profile set is used nowhere',
    todo: 'Remove it, or use it where it was meant.',
  },
  'set.number': {
    what: 'a formula gives no usable number for this unit',
    todo: 'Look at the sum with "pinchrod setout JOB UNIT --why NAME", and mend the formula or the job.',
  },
  'job.duplicate': {
    what: 'two units of a job have one mark',
    todo: 'Give each line a mark of its own; use quantity for more of the same.',
  },
  'job.layout': { what: 'a layout cannot be read', todo: 'See the job manual for splits and lights.' },
  'job.handing': {
    what: 'the handing of a light is not clear',
    todo: 'Give three keys: hinge (left or right), viewed_from (outside or inside), opens (out).',
  },
  'job.glass': {
    what: 'a glass is not known',
    todo: 'Name a glass of the profile set or of the job, or write its panes and gaps as in 4-16-4.',
  },
  'job.csv': {
    what: 'a job table cannot be read',
    todo: 'Save the sheet as CSV with the columns of the job manual.',
  },
  'layout.room': {
    what: 'the lights do not fit into the frame',
    todo: 'Change the divider positions or the size of the window.',
  },
  'layout.count': {
    what: 'the number of positions does not go with the number of parts',
    todo: 'Give one position fewer than there are parts, and one size or share for each part.',
  },
  'layout.equal-glass': {
    what: 'equal glass cannot be worked out here',
    todo: 'Use equal sight sizes or centre lines for this split.',
  },
  'setout.sum': {
    what: 'the sizes across a cut do not add up to the frame',
    todo: 'Mend the layout formulas of the profile set.',
  },
  'setout.glass': {
    what: 'the two glass formulas disagree',
    todo: 'A constant of the profile set is mistyped: check it against the section drawing.',
  },
  'setout.off-part': {
    what: 'a mark does not lie on its part',
    todo: 'Change the size, the handle or the hardware: the part is too short for it.',
  },
  'setout.clash': {
    what: 'the rules for a part cannot all hold',
    todo: 'Change the size, the handle or the divider position; or a named person overrides this with a reason.',
  },
  'setout.clash-unproven': {
    what: 'positions satisfy every rule, but the least shift was not proven within the search bound',
    todo: 'Use the positions, or move the handle or divider so that fewer marks meet.',
  },
  'order.gear': {
    what: 'no gear of the set suits the sash member with the handle',
    todo: 'Change the size or opening of the light.',
  },
  'order.stay': {
    what: 'no stay of the chart takes the sash',
    todo: 'Add a divider or change how the light opens; a named person may override with a reason.',
  },
  'order.near-limit': {
    what: 'a sash is near a limit of its stay',
    todo: 'Check the chart of the hardware maker before release.',
  },
  'order.glass-thickness': {
    what: 'no bead of the set holds this thickness of glass',
    todo: 'Choose a glass within the bead range of the profile set.',
  },
  'order.limit': {
    what: 'a size or ratio is outside the profile set',
    todo: 'Change the order; a named person may override with a reason.',
  },
  'order.opens-in': {
    what: 'a light opens in, which the profile set does not make',
    todo: 'Order it to open out, or use a profile set that makes it.',
  },
  'order.safety-glass': {
    what: 'safety glass is asked for and a glass is not marked as such',
    todo: 'Choose a glass that is marked safety: true.',
  },
  'order.escape': {
    what: 'no opening of the unit gives the escape opening asked for',
    todo: 'Make a light larger or hinge it otherwise; local rules come first.',
  },
  'order.escape-unknown': {
    what: 'the escape opening cannot be worked out from this profile set',
    todo: 'Find the clear opening in the hardware maker’s data; then a named person may override with that as the reason.',
  },
  'why.unknown': { what: 'no number of that name', todo: 'Use one of the names that setout --why lists.' },
} as const;
