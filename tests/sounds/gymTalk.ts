/**
 * What is said around a rack and is no reply: own sentences, one of the words in brackets. Only
 * the bench may use them: nothing is taught or fitted with them.
 */
const COACHING = `
keep (your|those) (ribs|hips|elbows|shoulders|heels) (down|level|heavy|quiet|where they are)
don't let (the|your) (knees|hips|elbows|bar|back) (come forward|drift|round|drop|wander)
(push|send|reach) your hips (back|back a little further|towards the wall)
can you feel (that|it) (in your hamstrings|under your shoulder blade|between your ribs)
let the (bell|bar|arms) hang (long|straight down|like ropes)
(long|slow|easy) breath out and (soften|melt) the ribs
(think about|imagine) closing a car door with your (hips|backside)
look at a spot (on the floor|two metres ahead|by the wall)
hold (that|it) (right there|for me|a moment longer)
pause right there and (breathe|look at me)
don't stop (there|now|halfway)
that was (much|a bit|a lot) better than the (last|first) one
(nice|lovely|beautiful) (work|position|hinge|reach)
yep there it is
hang clean from the (knee|hip|blocks)
locked out at the top
(bring|take) the bar (to|down) your (thighs|shins)
stay (tall|long|tight) as you (turn|reach|come up)
show me the (other|easy) (arm|leg|way)
the (floor|bench|box) is your (friend|target)
let's see one from the (front|side)
spread the floor with your feet
chest (proud|open) and chin (tucked|in)
shake it (out|off) and walk around
take the (lighter|smaller|blue) (one|bell|plate)
we're (going|moving) on to the (warm up|stretch|second part) soon
you are (stronger|steadier|calmer) than in the (spring|summer)
that's (exactly|pretty much) what I (want|meant)
imagine a (string|rope) pulling your head (up|away)
your (left|right) foot wants to (turn|roll) a little
watch how (she|he) (folds|turns|lands)
the hamstrings will tell you when to turn round
`;

const OTHERS = `
(did|have) you (seen|heard|met) the new (trainer|owner|receptionist)
how (long|far|heavy) (was|is) (that|your) (drive|run|bag)
I (parked|left the car) (behind|next to) the (bakery|station|pool)
are you (using|done with) (this|that) (bench|rack|mat)
my (shoulder|hip|knee) was (fine|great) after (the holiday|swimming|that massage)
(he|she) passed (his|her) (exam|test|course) (last week|on Friday|at last)
we lost (the match|on Saturday|by two goals) (again|sadly)
the class (starts|ends) at (half past six|a quarter to nine|ten)
could you (spot|film|help) me (for a second|on the next one|please)
that (song|track|playlist) (again|is so loud|reminds me of school)
(two|three|four) (coffees|teas) and a (bottle of water|banana) please
the (changing room|shower|toilet) is (down the hall|on the right|out of order)
I've got (about|only) (ten|twenty|forty five) minutes (today|before work)
someone (left|forgot) a (towel|jacket|phone) (on the bench|over there|by the door)
it's (cold|freezing|boiling) in here (today|this morning)
what (time|day) do you (close|open) (tomorrow|on Sunday)
(my|our) (kids|boys|girls) have (swimming|football|a party) (tonight|later)
pass me the (chalk|clip|towel|remote) would you
he (went|came) back (to work|from Spain|home) (early|yesterday)
the next (train|bus|class) (leaves|is) in (fifteen|fifty) minutes
clear the (platform|floor|way) please
she said no (problem|worries|chance)
(yes|yeah) I know what you mean
no (way|thanks|idea)
(hello|hi|hey) how are you (doing|today|getting on)
(sorry|excuse me) I didn't (see|hear|mean) you (there|that)
it took (one|a) hundred and (fifty|ten|thirty) (days|miles|tries)
(rain|snow|wind) all (week|weekend|day) (apparently|they say)
we could (meet|eat|talk) after (training|the session|lunch)
a new pair of (shoes|gloves|straps) would (help|be nice)
the doctor (told|asked) him to (rest|wait|walk more)
`;

/** Every sentence of a group once, its choices drawn anew. */
function written(patterns: string, random: () => number): string[] {
  return patterns
    .trim()
    .split('\n')
    .map((pattern) =>
      pattern.replace(/\(([^)]*)\)/g, (_, choice: string) => {
        const words = choice.split('|');
        return words[Math.floor(random() * words.length)] ?? '';
      }),
    );
}

/** So many sentences, coaching and others' talk mixed; each pattern comes before any comes again. */
export function gymTalk(count: number, random: () => number): string[] {
  const sentences: string[] = [];
  while (sentences.length < count) {
    const round = [...written(COACHING, random), ...written(OTHERS, random)];
    const order = round.map((text) => ({ text, place: random() }));
    order.sort((a, b) => a.place - b.place);
    sentences.push(...order.map(({ text }) => text));
  }
  return sentences.slice(0, count);
}
