"""Every neutral word: its parameters and what it does."""

from scenekit.records import record


@record(frozen=True, slots=True, kw_only=True)
class WordFact:
    """A word that a dialect may spell.

    parameters   names that a dialect's spelling may use in braces
    meaning      one sentence
    sets         index of the parameter that receives a value, or None
    """

    parameters: tuple[str, ...]
    meaning: str
    sets: int | None = None


def _fact(parameters: str, meaning: str, sets: int | None = None) -> WordFact:
    return WordFact(parameters=tuple(parameters.split()), meaning=meaning, sets=sets)


WORDS: dict[str, WordFact] = {
    "mode": _fact("width height", "Opens the display mode of the target."),
    "mode_direct": _fact("width height", "Opens the display mode of the target, where pixels hold colours."),
    "palette": _fact("entry red green blue", "Sets a palette entry; what is drawn in it changes at once."),
    "ink": _fact("entry", "Chooses the palette entry that following words draw in."),
    "ink_rgb": _fact("red green blue", "Chooses the colour that following words draw in."),
    "run": _fact("x y length", "Draws a horizontal run of pixels."),
    "fill": _fact("x y width height", "Fills a rectangle."),
    "load_image": _fact("slot file", "Loads an image file into a numbered slot."),
    "keyed_entry": _fact("entry", "Tells the machine which entry keyed copies leave out."),
    "blit": _fact("slot left top width height x y", "Copies a rectangle of an image to the screen."),
    "blit_keyed": _fact(
        "slot left top width height x y flip",
        "Copies a rectangle of an image, leaving out the transparent entry, mirrored by a flip code 0 to 3.",
    ),
    "move_part": _fact(
        "left top width height x y",
        "Copies a rectangle of the page that is drawn to another place on it; the two may overlap.",
    ),
    "art_open": _fact("width height", "Sends drawing to the hidden page that holds the art."),
    "art_fill": _fact("entry x y width height", "Fills a rectangle of the hidden page."),
    "art_run": _fact("entry x y length", "Draws a horizontal run of pixels on the hidden page."),
    "art_close": _fact("", "Sends drawing to the page on show again."),
    "begin_frame": _fact("page", "Starts drawing a page that is not on show."),
    "end_frame": _fact("page", "Puts the drawn page on show at the next refresh."),
    "file_open": _fact("file", "Opens a file of bytes for reading."),
    "file_byte": _fact("value", "Reads the next byte of the open file.", 0),
    "file_end": _fact("value", "Gives 1 when the last byte of the open file was read, else 0.", 0),
    "file_close": _fact("", "Closes the file of bytes."),
    "map_open": _fact("file", "Opens the file of maps, which stays open, for reading at any place."),
    "map_at": _fact("place", "Goes to a byte of the file of maps, counted from 0."),
    "map_byte": _fact("value", "Reads the next byte of the file of maps.", 0),
    "rewind": _fact("", "Goes back to the first value of the program's tables."),
    "read": _fact("value", "Reads the next value of the program's tables.", 0),
    "take_text": _fact("value", "Reads the next text of the program's tables and gives its length.", 0),
    "text_code": _fact("value place", "Gives the code of a sign of that text, counted from 1.", 0),
    "stops_open": _fact("", "Opens the list of stops."),
    "stop_next": _fact("value", "Reads the next stop; -1 after the last one.", 0),
    "say_open": _fact("", "Opens the list of values that the program reports."),
    "say": _fact("value", "Reports a value."),
    "say_close": _fact("", "Closes the list of reported values."),
    "save_screen": _fact("number", "Saves the screen under a number."),
    "see": _fact(
        "value x y",
        "Gives a pixel on show: its entry, or red + 256 x green + 65536 x blue where pixels hold colours.",
        0,
    ),
    "key": _fact("value", "Gives a number above zero while a key is held, else zero.", 0),
    "keys_held": _fact(
        "value", "Gives the keys that are held: left 1, right 2, up 4, down 8, action 16, added up.", 0
    ),
    "keys_open": _fact("", "Opens the script of keys."),
    "keys_next": _fact("value", "Reads the next number of the script of keys; -1 after the last one.", 0),
    "clock": _fact("value", "Gives a clock in thousandths of a second; only its differences count.", 0),
    "quit": _fact("", "Ends the program."),
}
