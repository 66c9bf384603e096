"""Spells expressions, with as few brackets as they need."""

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.names import Names
from scenekit.routines.language import Binary, Element, Expression, Name, Number, Text, precedence


class Expressions:
    """Spells expressions of the routine that is being spelled.

    routine  its name; "" is the main part
    """

    def __init__(self, dialect: Dialect, names: Names) -> None:
        self.dialect = dialect
        self.names = names
        self.routine = ""

    def scalar(self, name: str) -> str:
        """Return a variable of the routine, or of all."""
        return self.names.scalar(self.routine, name)

    def text(self, value: Expression) -> str:
        """Return an expression."""
        match value:
            case Number(number):
                return str(number)
            case Name(name):
                return self.scalar(name)
            case Text(text):
                return text
            case Element(array, index):
                return self._element(array, index)
            case Binary(operator, left, right):
                return self._binary(operator, left, right)

    def operand(self, value: Expression) -> str:
        """Return an expression that can stand beside any operator."""
        text = self.text(value)
        negative = isinstance(value, Number) and value.value < 0
        return f"({text})" if isinstance(value, Binary) or negative else text

    def argument(self, value: Expression) -> str:
        """Return an argument; where variables are handed over themselves, their value instead."""
        text = self.text(value)
        form = self.dialect.statements.get("argument")
        return form.format(value=text) if form and isinstance(value, Name | Element) else text

    def _element(self, array: str, index: Expression) -> str:
        """Return an array element."""
        name, base = self.names.arrays[array]
        place = self.text(index)
        if base and isinstance(index, Number):
            place = str(base + index.value)
        elif base and isinstance(index, Binary) and index.operator == "+" and isinstance(index.right, Number):
            place = f"{base + index.right.value}+{self.text(index.left)}"
        elif base:
            place = f"{base}+{place}"
        return self.dialect.statements.get("element", "{name}({index})").format(name=name, index=place)

    def _binary(self, operator: str, left: Expression, right: Expression) -> str:
        """Return an operation, with as few brackets as the neutral precedence needs."""
        level = precedence(operator)
        a, b = self.text(left), self.text(right)
        tight = operator in ("div", "mod")
        # A sign binds looser than + in some BASICs, so a negative number stands in brackets.
        if (isinstance(left, Binary) and (precedence(left.operator) < level or tight)) or a.startswith("-"):
            a = f"({a})"
        if (isinstance(right, Binary) and (precedence(right.operator) <= level or tight)) or b.startswith(
            "-"
        ):
            b = f"({b})"
        return self.dialect.operators[operator].format(a=a, b=b)


def operations(value: Expression) -> list[Binary]:
    """Return every operation within an expression."""
    match value:
        case Binary(_, left, right):
            return [value, *operations(left), *operations(right)]
        case Element(_, index):
            return operations(index)
    return []


def replaced(value: Expression, part: Expression, name: Name) -> Expression:
    """Return an expression with a part of it, wherever it stands, replaced by a variable."""
    if value == part:
        return name
    match value:
        case Binary(operator, left, right):
            return Binary(operator, replaced(left, part, name), replaced(right, part, name))
        case Element(array, index):
            return Element(array, replaced(index, part, name))
    return value
