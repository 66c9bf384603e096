"""Six small things on the key colour, of different sizes at irregular places."""

from demo_art.canvas import Canvas

OIL_CAN = (
    "...........kk.",
    "..........kak.",
    ".........kak..",
    "....kkk.kak...",
    "...k...kkk....",
    "..k.kkkkak....",
    "..kkabbbak....",
    "...kabbbbck...",
    "..kabbbbbck...",
    "..kabbbbbck...",
    ".kabbbbbbbck..",
    ".kccccccccck..",
    "..kkkkkkkkk...",
)
KEY = (".kkkk........", "kaaaakkkkkkk.", "kak.kaaaaaaak", "kak.kakkakakk", "kaaaak.kakak.", ".kkkk...k.k..")
MATCH = (
    "...3...",
    "...3.3.",
    ".3.43..",
    "..444..",
    ".34443.",
    "..343..",
    "...t...",
    "..tt...",
    "..t....",
    ".tt....",
    ".t.....",
)
RING = (
    "...kkkkkkk...",
    "..krrwwrrrk..",
    ".krrrkkkrrrk.",
    "krrkk...kkrrk",
    "kwwk.....kwwk",
    "kwwk.....kwwk",
    "krrkk...kkrrk",
    ".krrrkkkrrrk.",
    "..krrwwrrrk..",
    "...kkkkkkk...",
)
FISH = (
    ".....kkkkk......",
    "...kkaaaaakk..kk",
    "..kaabbbbbaakkak",
    ".kaebbbbbbbbaabk",
    ".kabbbbbbbbbbbbk",
    "..kabbbbbbbckkbk",
    "...kkcccccck..kk",
    ".....kkkkk......",
)
CRATE = (
    "kkkkkkkkkkkkkkkkkk",
    "kaaaaaaaaaaaaaaaak",
    "kabbbbbbbbbbbbaabk",
    "kabcccccccccbaaabk",
    "kabbbbbbbbbbaabbbk",
    "kabbbbbbbbaaabbbbk",
    "kabccccccaaacccbbk",
    "kabbbbbaaabbbbbbbk",
    "kabbbaaabbbbbbbbbk",
    "kabcaaacccccccccbk",
    "kabaaabbbbbbbbbbbk",
    "kaaabbbbbbbbbbbbbk",
    "kabbbbbbbbbbbbbbbk",
    "kkkkkkkkkkkkkkkkkk",
)
BRASS = {"k": "t0", "a": "l3", "b": "l2", "c": "l1"}
IRON = {"k": "q0", "a": "q5"}
FIRE = {"3": "l2", "4": "l4", "t": "t3"}
SILVER = {"k": "q1", "a": "q5", "b": "m0", "c": "q4", "e": "k"}
WOOD = {"k": "t0", "a": "t4", "b": "t2", "c": "t1"}
RESCUE = {"k": "t0", "r": "r1", "w": "m1"}

PLACES = (
    (OIL_CAN, BRASS, 5, 4),
    (KEY, IRON, 27, 9),
    (MATCH, FIRE, 47, 3),
    (CRATE, WOOD, 61, 6),
    (RING, RESCUE, 8, 24),
    (FISH, SILVER, 34, 25),
)


def draw_spark() -> Canvas:
    canvas = Canvas(86, 40)
    canvas.rect(0, 0, canvas.width, canvas.height, "key")
    for rows, legend, x, y in PLACES:
        canvas.stamp(rows, legend, x, y)
    return canvas
