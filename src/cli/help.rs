//! What is said of all commands and options.

/// What `--help` prints.
pub const HELP: &str = "\
Designs forged hammer heads and carries a design to the bar.

  headwright weigh DESIGN                     mass, centroid, inertia, balance, least cheek wall
  headwright fit DESIGN --hold HOLD ...       the nearest design that meets the holds
  headwright effects DESIGN                   what one step of every size does
  headwright bar DESIGN                       what to cut, where it goes, marks, upset, hot sizes
  headwright bar DESIGN --piece 1.42kg        the head that a piece already cut gives, and its sizes
  headwright drift DESIGN                     the last drift's profile, as SVG at 1:1
  headwright cut ORDER                        which piece is cut from which bar, in the fewest bars
  headwright cut DESIGN ... --stock LENGTH    the same for the billets of designs
  headwright swing DESIGN                     the whole tool, its handle and its blow, the smith at the anvil
  headwright compare DESIGN DESIGN ...        up to four hammers side by side, and what that means
  headwright compare DESIGN --sweep RANGE     one with a size from short to long, weight and balance kept
  headwright heat DESIGN                      how it is normalized, hardened and tempered in its steel
  headwright log LOG                          minutes, losses and heats of builds, and what was learned of them
  headwright forged DESIGN --size SIZE ...    what a head on its way will weigh, and what to move to come back
  headwright forged LOG --build 3             the same by what a build of the log says
  headwright measured DESIGN --size SIZE ...  the design of a hammer that exists, and what would explain its weight
  headwright price COSTS --wage 30            the price that pays a wage, or with --sell 180 the wage it leaves
  headwright card DESIGN --out FILE           the shop sheet with templates at 1:1, as FILE ends: .pdf, .svg
  headwright draw DESIGN --out FILE           the drawing with every size at 1:1, as FILE ends: .pdf, .svg
  headwright rack FILE ...                    the hammers of rack files; --search, --show and --out as below
  headwright mesh DESIGN --out FILE           the head as triangles, as FILE ends: .stl, .3mf, .glb
  headwright starter                          names of the designs to begin with
  headwright starter NAME                     one of them, as a design file
  headwright schema                           JSON schema of the design file
  headwright --help | --version

DESIGN is a design file, or - for standard input.
HOLD is on mass, offset (the balance), inertia (about the handle), reach_ratio (front to back), length
(over all), least_wall, or of the finished tool on tool_mass, balance_point (below the head's middle) or
grip_inertia (about the grip): a value mass=1.1kg, with a tolerance mass=1.1kg±10g (or +-10g), a range
mass=1.0kg..1.2kg, at least least_wall=8mm.. or at most length=..110mm; masses in g, kg, oz, lb or lb
and oz, lengths in mm, cm or in, inertia in kg·mm2 or lb·in2. Without --hold the design's own holds are
kept. With --free front.reach=50mm..70mm a size may move between two limits (without limits, between
the usual ones), with --lock front.reach it may not; what is free in the design stays so otherwise.
With --rule 1mm (or 1/16in) the sizes that may move are also put on the divisions of a rule, so that
least is left over of the holds.
effects takes --rule 1mm (or 1/16in), the step, and --accuracy 0.5mm, how far a forged length may lie
off either way; angles count by the degree. Without them the design's own rule and half of it.
bar takes --hot 1050C (or 1920F), the heat for hot sizes and for drifting, as drift does, and --from back,
to measure the marks from the end of the billet that becomes the back; with --table it prints all of it to be read, in the units of the
design's rule, with --piece too.
bar and drift take the opening before drifting, --slot 25mmx6mm (with round ends; --slot 12mm is round,
--slot rectangle:25mmx6mm has square corners) or --slit 32mm (or 32mmx3mm), length by width, in mm without
a unit; and for every drift that there is --drift 20x14 (at its greatest), --drift 20x14@1:12 with its taper.
cut takes for designs --count 6 after each, --stock 3m (or several), --kerf 2mm (when not given), --end 20mm behind the
last piece of every bar, the last cut taken from it, --price 2.4 per kg; an order file says all that itself. --table prints it for reading.
swing and compare take --side back, the end that strikes, --off 8mm (or 8mm,5mm), how far beside its middle, across
and along the handle, and the smith: --stature 1750mm (or --knuckle 760mm --shoulder 1430mm), --anvil 760mm
(knuckle height without it), --work 20mm. swing
takes how hard as --speed 7m/s, --energy 40J, or --torque 20Nm --angle 90deg, and --depth 0.5mm for the print in soft
work; compare takes --sweep front.reach=50mm..72mm. Both take --table. What is said of smith and arm are estimates.
heat takes, in the place of what the design says, --steel 4140 and --analysis C=0.45,Mn=0.75,Si=0.25, --quench oil
(air, water, brine), --agitation good (none, mild, moderate, strong, violent), --bath 45C, --temper 205C or --hardness 52
(HRC), --soak 2h, --times 2, and --table in the units of the design's rule. All its numbers are estimates.
card takes --paper a4 (or letter), --link-base https://example.org/, the address of the page that opens the design's
link in its QR code, --date '4 March', and --hot, --from, --slot, --slit and --drift as bar does; as SVG each page is
a file, FILE-1.svg and so on. Print at 100 %.
log reads a log file, the log of a rack file or the same as CSV, and takes --as csv or --as json to write it as one of them,
--as losses for what it has taught of losses as CSV, and --table. bar takes --log LOG, to reckon with the losses learned from it
in the place of the design's own.
forged and measured take for every size that was measured --size front.reach=58.2mm (hot with its heat, as
--size front.reach=59mm@1050C), what the head weighed as --weighed 1290g, with --after drift the step that was done then (what
goes later is taken off), and how far off things may be: --caliper 0.1mm, --scale 1g, and --accuracy 0.5mm for what was not
measured. measured takes --rest proportion, to draw the rest larger or smaller with it, or --rest weight, to fit what is free to
the weight. Both take --table.
price takes a file of costs (its keys are in README.md) or the same as CSV, --heads 6, the batch, --order ORDER, whose cutting
list the steel is paid from, --log LOG, for the minutes and spoiled pieces of its builds, and --table; without --wage and --sell
what the file says of them counts. With --as csv or --as json it writes the costs themselves, with what was said. Taxes are
not in it.
rack takes --search WORDS, for the hammers that have every word in name, note or tags; --show NAME (or an id), for the
design file of one, to be read by the other commands from -; and --out FILE, to write what is listed, of several files
too, as one rack file; with --search FILE is none of those that are read. A hammer that stands there already is skipped,
another under its id is kept as a copy; logs and costs go along, and builds of one id are joined so that none loses what was
recorded, with --search those of the hammers that are found. With --table it prints them for reading.
FILE.stl is binary STL in mm, FILE.3mf is 3MF with name and mass, FILE.glb is binary glTF, in m and
with the handle axis up as that format wants it.
The answer is one JSON object, but for drift, rack --show and with --table or --as. Exit status 0 with any answer, 2 and one sentence for wrong input.
";
