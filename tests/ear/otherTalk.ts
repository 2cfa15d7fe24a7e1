/** What is said in a gym and is no reply; own sentences. */
export const OTHER_TALK = `
did you pass your driving test
he bounced back really well
what time do you finish today
can you turn the music down
that was a lovely weekend
keep your knees back
don't let the knees come forward
push your hips back
nice work everyone
beautiful keep going
are you coming on thursday
i left my water bottle in the car
could somebody open a window
the bar on the corner is closed
he is training for a marathon
my daughter starts school on monday
let's do another one after lunch
where did you put the chalk
that's a good looking pair of shoes
two more and then we rest
think about sitting into the wall
squeeze your shoulder blades together
breathe out slowly through the mouth
we should get some coffee
i forgot to call my sister
have you seen the new film
it's raining again outside
please wipe down the bench
the plates are over there
who wants to go first
how was your holiday
i slept badly last night
this song is terrible
let me show you what i mean
spread your weight over the whole foot
look at the floor in front of you
good
very good
good job
well done mate
okay
alright then
thanks
excuse me
good morning
see you later
coffee
tomorrow
of course
exactly
i think so
maybe on friday
not really
the same as last time
watch this
over here
careful with that
it's too loud in here
can i use this rack
are you finished with the rack
let's go
come on
another one please
try it with your eyes closed
what did the doctor say
my shoulder felt fine yesterday
we were stuck in traffic for an hour
he said the knee was sore after football
she has a new personal best
put the weights away when you leave
drive through the floor
chest up
eyes forward
brace
relax your neck
hold it there
a bit lower
slowly on the way down
stand tall at the top
stay long through the spine
the back door is open
the left lane is for sprinting
there were forty people in the class
it cost me a hundred and fifty dollars
`
  .trim()
  .split('\n');

/** Single words near to replies, and words that are none. */
export const OTHER_WORDS =
  'past paws nose text lack ready-made fast lift sleeve clever clearly holding hells lots mist wait-list peace list pants chess nest meet beat sheep chair window orange bottle music Tuesday garden happy people water running table better brother mother thinking because around never always morning letter kitten hammer paper silver number winter dollar rabbit pillow basket turkey yellow castle wonder sitting reading walking talking laughing sister father doctor flower tower power hour shower seven-up coach towel locker mirror station apple butter crazy funny lovely really'
    .split(' ')
    .map((word) => word.replace('-', ' '));
