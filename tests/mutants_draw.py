#!/usr/bin/env python3
"""What could be changed in a header, one token or statement at a time: python3 tests/mutants_draw.py [HEADER...] lists it.

Only code is changed: no comment, text, include, macro definition, alias, template parameter, attribute, concept or
static_assert. The headers are laid out by clang-format, so an operator between two operands has space on both sides and an
angle bracket has none before it: that is how `a < b` and `vector<int>` are told apart.
"""
import collections
import decimal
import pathlib
import random
import re
import sys

TOKEN = re.compile(
    r"""(?P<comment>//[^\n]*|/\*.*?\*/)
    |(?P<directive>^[ \t]*\#(?:[^\n]*\\\n)*[^\n]*)
    |(?P<text>(?:u8|[uUL])?R"(?P<end>[^(\s]*)\(.*?\)(?P=end)"|(?:u8|[uUL])?"(?:[^"\\\n]|\\.)*"|(?:u8|[uUL])?'(?:[^'\\\n]|\\.)+')
    |(?P<number>\.?\d(?:[eEpP][+-]|'(?=\w)|[\w.])*)
    |(?P<name>[A-Za-z_]\w*)
    |(?P<sign><=>|->\*|\.\.\.|::|->|\+\+|--|<<=|[-+*/%&|^]=|&&|\|\||==|!=|<=|>=|<<|[^\s\w])""",
    re.X | re.S | re.M,
)
Token = collections.namedtuple("Token", "kind text start end")
# One change of a header: `at` is the place a test must run, `in_body` whether it stands in a function, `edits` are (start,
# end, text) in the header.
Mutant = collections.namedtuple("Mutant", "header kind line column at in_body edits")

OTHER_OPERATOR = {
    "+": ["-"], "-": ["+"], "*": ["/"], "/": ["*"], "%": ["/"],
    "+=": ["-="], "-=": ["+="], "*=": ["/="], "/=": ["*="],
}
OTHER_COMPARISON = {
    "<": ["<=", ">="], "<=": ["<", ">"], ">": [">=", "<="], ">=": [">", "<"],
    "==": ["!="], "!=": ["=="], "&&": ["||"], "||": ["&&"],
}
# Calls whose arguments may change places without a change, that no compiler takes in another order, or that tell a field.
NO_SWAP = set("""min max hypot swap visit report require require_that refuse static_cast if for while switch catch return
    sizeof decltype noexcept alignas static_assert operator defined""".split())
# What a statement that may be left out does not begin with: declarations, and what ends a path that must end.
NO_DROP = set("""using template typename static constexpr const auto class struct enum namespace friend public private case
    default if for while do else switch try catch goto return throw static_assert typedef inline extern explicit virtual
    delete""".split())
# Statements that only save work.
SAVES_WORK = re.compile(r"(\.|->)(reserve|shrink_to_fit)\(|^\(void\)|^static_cast<void>")
DECLARES = re.compile(r"^(unsigned|long|int|bool|char|double|float|R|S|T|D|V)$")


class Header:
    """A header's tokens with their brackets, and the mutants that can be drawn from it."""

    def __init__(self, name, text):
        self.name, self.text = name, text
        self.tokens = [
            Token(m.lastgroup if m.lastgroup != "end" else "text", m.group(), m.start(), m.end())
            for m in TOKEN.finditer(text)
            if not m.group("comment") and not m.group("directive")
        ]
        self.line_starts = [0] + [m.end() for m in re.finditer("\n", text)]
        self.inside = [None] * len(self.tokens)  # the bracket each token stands in
        self.closes = {}  # of each opening bracket, where it closes
        self.opens = {}
        self.match_brackets()
        self.barred = [False] * len(self.tokens)
        self.bar()

    def match_brackets(self):
        stack = []
        for i, t in enumerate(self.tokens):
            if t.text in (")", "]", "}"):
                # What was taken for an angle bracket and never closed was none.
                while stack and self.tokens[stack[-1]].text == "<":
                    stack.pop()
                if stack:
                    self.close(stack.pop(), i)
            elif t.text == ">" and stack and self.tokens[stack[-1]].text == "<" and not self.spaced(i):
                self.close(stack.pop(), i)
            self.inside[i] = stack[-1] if stack else None
            if t.text in ("(", "[", "{") and t.kind == "sign" or self.opens_angle(i):
                stack.append(i)

    def close(self, start, end):
        self.closes[start], self.opens[end] = end, start

    def opens_angle(self, i):
        if self.tokens[i].text != "<" or i == 0:
            return False
        before = self.tokens[i - 1]
        if before.text == "template":
            return True
        return before.kind == "name" and before.text != "operator" and before.end == self.tokens[i].start

    def spaced(self, i):
        """Whether an operator stands between two operands: space before and behind."""
        t = self.tokens[i]
        if i > 0 and self.tokens[i - 1].text == "operator":
            return False
        return self.text[t.start - 1].isspace() and self.text[t.end : t.end + 1].isspace()

    def bar_to(self, start, stop):
        for k in range(start, min(stop, len(self.tokens) - 1) + 1):
            self.barred[k] = True

    def find_at_level(self, start, signs):
        """The next of some signs in the bracket that token `start` stands in."""
        i = start
        while i < len(self.tokens):
            if i != start and self.tokens[i].text in signs and self.tokens[i].kind == "sign":
                return i
            if i in self.closes and i >= start:
                i = self.closes[i]
            elif self.tokens[i].text in (")", "]", "}") and self.tokens[i].kind == "sign":
                return i
            i += 1
        return len(self.tokens) - 1

    def bar(self):
        """What is no code that computes."""
        for i, t in enumerate(self.tokens):
            following = self.tokens[i + 1].text if i + 1 < len(self.tokens) else ""
            if t.text in ("using", "typedef", "concept", "static_assert", "namespace"):
                self.bar_to(i, self.find_at_level(i, {";", "{"}) if t.text == "namespace" else self.find_at_level(i, {";"}))
            elif t.text == "template" and i + 1 in self.closes:
                self.bar_to(i, self.closes[i + 1])
            elif t.text == "enum":
                self.bar_to(i, self.find_at_level(i, {";"}))
            elif t.text in ("decltype", "noexcept", "alignas", "__attribute__", "explicit") and i + 1 in self.closes:
                self.bar_to(i, self.closes[i + 1])
            elif t.text == "requires":
                stop = i
                if following in ("(", "{") and i + 1 in self.closes:
                    stop = self.closes[i + 1]
                    if self.tokens[stop + 1].text == "{":
                        stop = self.closes.get(stop + 1, stop)
                self.bar_to(i, stop)
            elif t.text == "[" and following == "[" and i in self.closes:
                self.bar_to(i, self.closes[i])
            elif self.opens_angle(i) and i in self.closes:
                self.bar_to(i, self.closes[i])

    def place(self, offset):
        """Line and column from 1."""
        low, high = 0, len(self.line_starts)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self.line_starts[middle] <= offset else (low, middle)
        return low + 1, offset - self.line_starts[low] + 1

    def mutant(self, kind, at, *edits):
        line, column = self.place(edits[0][0])
        where = self.place(self.tokens[at].start)
        return Mutant(self.name, kind, line, column, where, self.in_body(at), tuple(sorted(edits)))

    def in_body(self, i):
        around = self.inside[i]
        while around is not None:
            before = self.tokens[around - 1].text if around else ""
            if self.tokens[around].text == "{" and before in (")", "const", "noexcept", "mutable", "else", "do", "try"):
                return True
            around = self.inside[around]
        return False

    def between(self, first, last):
        return self.text[self.tokens[first].start : self.tokens[last].end]

    def mutants(self):
        for i, t in enumerate(self.tokens):
            if self.barred[i]:
                continue
            if t.kind == "number":
                yield from self.other_numbers(i)
            elif t.kind == "name":
                if t.text in ("true", "false"):
                    yield self.mutant("constant", i, (t.start, t.end, "false" if t.text == "true" else "true"))
                elif t.text in ("min", "max") and self.callee_bracket(i) is not None:
                    yield self.mutant("min and max", i, (t.start, t.end, "max" if t.text == "min" else "min"))
            elif t.kind == "sign":
                yield from self.other_signs(i)

    def other_numbers(self, i):
        t = self.tokens[i]
        around = self.inside[i]
        if around is not None and self.tokens[around].text == "[" and self.is_declarator(around - 1):
            return  # the size of an array
        for text in number_variants(t.text):
            yield self.mutant("constant", i, (t.start, t.end, text))

    def is_declarator(self, i):
        """Whether a name is being declared: a type stands right before it."""
        return i > 0 and self.tokens[i].kind == "name" and (
            self.tokens[i - 1].kind == "name" and self.tokens[i - 1].text not in ("return", "else", "case")
            or self.tokens[i - 1].text in ("&", "*", ">") and not self.spaced(i - 1)
        )

    def other_signs(self, i):
        t = self.tokens[i]
        near_text = any(self.tokens[k].kind == "text" for k in (i - 1, min(i + 1, len(self.tokens) - 1)))
        if t.text in OTHER_OPERATOR and self.spaced(i) and not near_text:
            for other in OTHER_OPERATOR[t.text]:
                yield self.mutant("operator", i, (t.start, t.end, other))
        elif t.text in OTHER_COMPARISON and self.spaced(i):
            # The right side of && and || runs only where it decides.
            for other in OTHER_COMPARISON[t.text]:
                yield self.mutant("comparison", i, (t.start, t.end, other))
        elif t.text == "-" and not self.spaced(i) and self.is_unary(i):
            yield self.mutant("operator", i, (t.start, t.end, ""))
        elif t.text == "!" and self.is_unary(i):
            yield self.mutant("comparison", i, (t.start, t.end, ""))
        elif t.text == "(" and i in self.closes:
            yield from self.swapped_arguments(i)
        elif t.text == "?":
            yield from self.swapped_choice(i)
        elif t.text == ";":
            yield from self.dropped_statement(i)

    def is_unary(self, i):
        before = self.tokens[i - 1]
        if before.text == "operator":
            return False
        return before.text == "return" or before.kind == "sign" and before.text not in (")", "]", "}")

    def callee_bracket(self, i):
        """The bracket that opens the arguments of the call of name `i`."""
        k = i + 1
        if self.opens_angle(k) and k in self.closes:
            k = self.closes[k] + 1
        return k if k < len(self.tokens) and self.tokens[k].text == "(" else None

    def callee(self, bracket):
        """The name of what is called with the arguments in a bracket."""
        k = bracket - 1
        if self.tokens[k].text == ">" and k in self.opens:
            k = self.opens[k] - 1
        return k if self.tokens[k].kind == "name" else None

    def arguments(self, bracket):
        """First and last tokens of each argument; nothing where one of them is not an expression."""
        found, first = [], bracket + 1
        for k in range(bracket + 1, self.closes[bracket] + 1):
            if self.inside[k] == bracket and self.tokens[k].text == "," or k == self.closes[bracket]:
                if k == first:
                    return []
                found.append((first, k - 1))
                first = k + 1
        for first, last in found:
            if self.tokens[first].text in ("const", "auto", "class", "typename", "["):
                return []
            if any(self.is_declarator(k) and self.inside[k] == bracket for k in range(first + 1, last + 1)):
                return []
            if any(self.tokens[k].text in ("...",) for k in range(first, last + 1)):
                return []
        return found

    def swapped_arguments(self, bracket):
        name = self.callee(bracket)
        if name is None or self.tokens[name].text in NO_SWAP or self.tokens[name].text.isupper():
            return
        if self.tokens[name].text.startswith("TAUTLINE_") or self.tokens[name - 1].text == "operator":
            return
        given = self.arguments(bracket)
        chooses = self.tokens[name].text == "select"
        for one, two in list(zip(given, given[1:]))[1 if chooses else 0 :]:
            a, b = self.between(*one), self.between(*two)
            if a != b and not any(self.tokens[k].kind == "text" for k in range(one[0], two[1] + 1)):
                ends = [(self.tokens[f].start, self.tokens[l].end) for f, l in (one, two)]
                yield self.mutant("branches" if chooses else "arguments", name, (*ends[0], b), (*ends[1], a))

    def swapped_choice(self, i):
        depth, k = 0, i + 1
        colon = None
        while k < len(self.tokens):
            t = self.tokens[k]
            if t.text == "?":
                depth += 1
            elif t.text == ":" and depth:
                depth -= 1
            elif t.text == ":":
                if colon is None:
                    colon = k
            elif t.text in (";", ",", ")", "]", "}") and t.kind == "sign":
                break
            k = self.closes.get(k, k) + 1
        if colon is None or colon == i + 1 or k == colon + 1:
            return
        if any(self.tokens[j].kind == "text" or self.tokens[j].text == "throw" for j in range(i, k)):
            return
        if "{" in (self.tokens[i + 1].text, self.tokens[colon + 1].text):
            return
        a, b = self.between(i + 1, colon - 1), self.between(colon + 1, k - 1)
        if a != b:
            yield self.mutant(
                "branches", i,
                (self.tokens[i + 1].start, self.tokens[colon - 1].end, f"({b})"),
                (self.tokens[colon + 1].start, self.tokens[k - 1].end, f"({a})"),
            )

    def dropped_statement(self, i):
        around = self.inside[i]
        if around is None or self.tokens[around].text != "{":
            return
        first = i
        while True:
            before = first - 1
            if before == around or self.tokens[before].text == ";" and self.inside[before] == around:
                break
            if before in self.opens:
                opened = self.opens[before]
                if self.tokens[before].text == "}" and self.tokens[opened - 1].text in (")", "const", "else", "{", "}", ";"):
                    if not self.is_lambda_body(opened):
                        break
                if self.tokens[before].text == ")" and self.controls(opened):
                    break
                before = opened
            if self.tokens[before].text == "else":
                break
            first = before
        if first >= i or self.barred[first]:
            return
        word = self.tokens[first].text
        text = self.between(first, i)
        ends_early = word in ("return", "throw", "continue", "break")
        if ends_early and not self.is_guarded(first, around):
            return
        if not ends_early and (word in NO_DROP or self.tokens[first].kind != "name" and word not in ("++", "--", "*", "(")):
            return
        if not ends_early and self.declares(first, i) or SAVES_WORK.search(text) or word.startswith("TAUTLINE_"):
            return
        # The next lines keep their numbers.
        left = ";" + "\n" * text.count("\n")
        if self.tokens[first - 1].text == "{" or self.tokens[first - 1].text in (";", "}"):
            left = left[1:] if not self.is_single(first) else left
        yield self.mutant("statement", first, (self.tokens[first].start, self.tokens[i].end, left))

    def is_lambda_body(self, brace):
        """Whether a brace opens what a lambda does: `](...) {`, `](...) -> T {` or `] {`."""
        k = brace - 1
        while k > 0 and self.tokens[k].text not in (")", "]", ";", "{", "}"):
            k -= 1
        if self.tokens[k].text == ")" and k in self.opens:
            k = self.opens[k] - 1
            if self.tokens[k].text == "__attribute__" and self.tokens[k - 1].text == ")":
                k = self.opens[k - 1] - 1
        return self.tokens[k].text == "]"

    def controls(self, bracket):
        return bracket > 0 and self.tokens[bracket - 1].text in ("if", "for", "while", "switch", "constexpr")

    def is_single(self, first):
        """Whether a statement stands alone behind its condition, without braces."""
        return self.tokens[first - 1].text in (")", "else")

    def is_guarded(self, first, brace):
        """Whether a path that ends here may go on instead: the statement stands behind an `if`."""
        before = self.tokens[first - 1]
        if before.text == ")" and self.controls(self.opens[first - 1]):
            return self.tokens[self.opens[first - 1] - 1].text == "if"
        k = brace - 1
        if self.tokens[k].text == ")" and k in self.opens:
            return self.tokens[self.opens[k] - 1].text == "if"
        return False

    def declares(self, first, last):
        k = first
        while k < last:
            if self.opens_angle(k) and k in self.closes:
                k = self.closes[k]
            elif self.tokens[k].text in ("(", "[", "{", "=", ".", "->") or self.tokens[k].text in OTHER_OPERATOR:
                return False
            elif k > first and self.tokens[k].kind == "name" and self.is_declarator(k):
                return True
            k += 1
        return False


def number_variants(text):
    """Other numbers: one more or less of a small whole one, a tenth more or twice as much of any other, 1 for 0."""
    parts = re.fullmatch(r"(0[xX][\da-fA-F']+|0[bB][01']+|[\d']*\.?[\d']*(?:[eE][+-]?\d+)?)([a-zA-Z]*)", text)
    if not parts:
        return []
    digits, suffix = parts.group(1).replace("'", ""), parts.group(2)
    if re.fullmatch(r"\d+", digits) and not (len(digits) > 1 and digits[0] == "0"):
        n = int(digits)
        others = [1] if n == 0 else [n - 1, n + 1] if n <= 20 else [n + max(n // 10, 1), 2 * n]
        return [f"{other}{suffix}" for other in others]
    if digits[:2].lower() in ("0x", "0b"):
        return [f"{int(digits, 0) + 1}{suffix}"]
    value = decimal.Decimal(digits)
    if value == 0:
        return [f"1.0{suffix}"]
    return [as_written(value * decimal.Decimal(by)) + suffix for by in ("1.1", "2")]


def as_written(value):
    text = str(value)
    return text if re.search(r"[.eE]", text) else text + ".0"


def applied(text, mutant):
    for start, end, by in reversed(mutant.edits):
        text = text[:start] + by + text[end:]
    return text


def lines_of(text, mutant):
    """The changed lines before and after, without their indentation."""
    first = text.rfind("\n", 0, mutant.edits[0][0]) + 1
    last = text.find("\n", mutant.edits[-1][1])
    shift = sum(len(by) - (end - start) for start, end, by in mutant.edits)
    flat = lambda part: re.sub(r"\s+", " ", part).strip()
    return flat(text[first:last]), flat(applied(text, mutant)[first : last + shift])


def no_code(text):
    """Comments, texts and directives of a header."""
    return [m.group() for m in TOKEN.finditer(text) if m.lastgroup in ("comment", "directive", "text", "end")]


def headers(include):
    root = pathlib.Path(include) / "tautline"
    return {str(p.relative_to(root)): p.read_text() for p in sorted(root.rglob("*.hpp"))}


def draw(texts, seed):
    """All lines in an order that the seed decides, one mutant of each."""
    by_line = collections.defaultdict(lambda: collections.defaultdict(list))
    for name, text in texts.items():
        for m in Header(name, text).mutants():
            by_line[name, m.line][m.kind].append(m)
    chance = random.Random(str(seed))
    order = sorted(by_line)
    chance.shuffle(order)
    for key in order:
        kinds = by_line[key]
        yield chance.choice(kinds[chance.choice(sorted(kinds))])


def main():
    root = pathlib.Path(__file__).resolve().parent.parent
    texts = headers(root / "include")
    counts = collections.Counter()
    for name, text in texts.items():
        for m in Header(name, text).mutants():
            counts[m.kind] += 1
            if name in sys.argv[1:] and m.kind != "statement" and no_code(text) != no_code(applied(text, m)):
                sys.exit(f"{name}:{m.line}:{m.column}: a {m.kind} changes what is no code")
            if name in sys.argv[1:]:
                before, after = lines_of(text, m)
                print(f"{name}:{m.line}:{m.column} {m.kind}\n  - {before}\n  + {after}")
    for kind, count in sorted(counts.items()):
        print(f"{kind:12} {count:6}")
    print(f"{'all':12} {sum(counts.values()):6}")


if __name__ == "__main__":
    main()
