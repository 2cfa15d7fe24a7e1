/** Everyday talk of a gym and elsewhere: own sentences, one of the words in brackets. */
const PATTERNS = `
(did|have|can|will|would|could|should) you (see|hear|call|find|bring|send|want|need|like|try) (the|my|our|that|this) (car|phone|list|key|ticket|coffee|photo|letter|game|message|plan|doctor|shop)
(where|when|why|how) (did|do|will|can|would) (you|they|we|he|she) (go|leave|start|finish|train|eat|sleep|move|travel|work)
(i|we|they|you) (went|drove|walked|ran|moved|flew) (to|from|past|near) the (city|beach|station|office|market|park|river|school|hotel)
(keep|hold|push|pull|drive|bring|move|turn) your (chest|hips|feet|elbows|head|shoulders|hands|weight|eyes|chin) (up|down|in|out|back|forward|still|tight|low|high)
(breathe|breath) (in|out) (slowly|deeply|gently|through the nose|through the mouth)
(good|great|nice|lovely|perfect|strong|excellent|solid) (job|work|effort|set|one|try|form|pace|depth|control)
(that|this|it) (was|is|looks|looked|feels|felt|sounds) (good|great|better|worse|fine|easy|hard|heavy|light|strange|funny|different|perfect)
(my|his|her|their|your) (brother|sister|mother|father|friend|boss|daughter|son|wife|husband|neighbour|dog) (is|was) (late|early|tired|away|busy|ill|well|happy|hungry|angry)
(put|take|leave|carry|bring|stack|move) the (plates|bench|box|rope|mat|towel|bottle|chair|boxes|clips|chalk) (over there|over here|away|outside|on the shelf|near the wall|by the window)
(see|meet|call|text|join) (you|me|us|them|him|her) (tomorrow|tonight|later|on monday|on tuesday|on friday|next week|after lunch|at noon|at the weekend)
(the|that|this) (music|song|film|weather|traffic|coffee|food|game|class|train) (is|was) (loud|quiet|terrible|wonderful|awful|boring|brilliant|cold|hot|slow|late)
(turn|switch) the (music|light|heater|fan|radio|screen) (on|off|up|down)
(excuse me|thank you|thanks|please|sorry|good morning|good evening|hello|welcome|cheers|goodbye)
(okay|alright|sure|maybe|perhaps|exactly|indeed|really|certainly|absolutely)
(it|this|lunch|parking|the ticket) (cost|costs|takes|took) (about|almost|over|under) (three|four|eight|eleven|twelve|thirty|sixty|ninety) (dollars|pounds|minutes|hours|days|weeks)
(there were|we had|i counted|she ran|he lifted) (two|six|nine|thirteen|eighteen|twenty|forty|fifty|seventy) (people|kilos|miles|cups|boxes|guests|pages)
(what|which) (time|day|song|team|film|shoe|size|colour|street|bus) (is|was) (it|that|this)
(have|take|grab) a (seat|drink|break|look|rest|walk|towel|shower|moment|guess)
(i|we|they) (think|believe|hope|guess|know|said|heard) (so|not|he won|she left|it works|they moved|it rained)
(let me|let us|i will|we will|you should) (show|tell|help|teach|watch|follow|ask|remind) (you|him|her|them)
(don't|never|always|try to|please) (forget|worry|rush|hurry|wait|look down|lean over|drop it|slam it|hold your breath)
(ready|set|and|now|next|then|so) (we|you|they|everyone) (go|start|move|lift|switch|change|turn|rest)
(squeeze|relax|tighten|soften|stretch|bend|lock) (your|the) (glutes|neck|jaw|hands|belly|core|grip|knees|fingers)
(slow|steady|smooth|gentle|controlled) (on the way|as you come|while you go) (down|up)
(the|my|his|her) (knee|shoulder|back|hip|elbow|wrist|ankle|neck) (felt|feels|was|is) (fine|better|sore|stiff|okay|great) (today|yesterday|after football|last week|in the morning)
`;

type Pick = <T>(from: readonly T[]) => T;

const patterns = PATTERNS.trim().split('\n');

/** One sentence, as words. */
export const sentence = (pick: Pick): string[] =>
  pick(patterns)
    .replace(/\(([^)]*)\)/g, (_, choice: string) => pick(choice.split('|')))
    .split(' ');
