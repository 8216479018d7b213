#!/bin/sh
# What doxygen reads of a file: sh doxygen_filter.sh FILE
#
# Formulas that stand in comments as `mu (2 L f)^2` are set as such; so is `$...$` in documents. What headers would only repeat
# is written here: the range of a member, which its `describe` states; what a function refuses, which its `require`s state; the
# default number type; the members every aggregate has; the names that macros make.
# Lines stay where they are, so that messages point to the right one.
case $1 in
*.hpp) ;;
*)
    # Of the links only those to other documents lead somewhere from the reference. Pictures keep their words as what is read
    # where they are not seen, which doxygen would print below them; build.sh copies them. What folds is passed through.
    exec awk '
    /^ *```/ { fenced = !fenced }
    !fenced && /^<details>$/ { printf "\\htmlonly[block]<details>"; next }
    !fenced && /^<summary>.*<\/summary>$/ { print $0 "\\endhtmlonly"; next }
    !fenced && /^<\/details>$/ { print "\\htmlonly[block]</details>\\endhtmlonly"; next }
    !fenced && /^!\[.*\]\([^()]*\)$/ {
        words = $0; sub(/^!\[/, "", words); sub(/\]\([^()]*\)$/, "", words); gsub(/"/, "\\&quot;", words)
        file = $0; sub(/^.*\]\(/, "", file); sub(/\)$/, "", file); sub(/^.*\//, "", file)
        print "\\htmlonly[block]<img class=\"shown\" src=\"" file "\" alt=\"" words "\"/>\\endhtmlonly"
        next
    }
    !fenced {
        gsub(/\$[^$`]+\$/, "\\f&\001"); gsub(/\$\001/, "\\f$")
        text = ""
        while (match($0, /\[[^][]*\]\([^()]*\)/)) {
            link = substr($0, RSTART, RLENGTH); before = substr($0, 1, RSTART - 1); $0 = substr($0, RSTART + RLENGTH)
            if (before !~ /!$/ && link !~ /\]\((https?:|#|[^()]*\.md)/) { sub(/^\[/, "", link); sub(/\]\(.*/, "", link) }
            sub(/\.md#[^)]*/, ".md", link) # doxygen knows documents, not places in them
            text = text before link
        }
        $0 = text $0
    }
    { print }' "$1"
    ;;
esac
exec awk '
# "more_than_up_to(0 * units::mm, 500 * units::mm)" in words.
function range_in_words(text,    inside, low, high) {
    gsub(/ \* units::/, " ", text); gsub(/units::/, "", text)
    inside = text; sub(/^[a-z_]+(<[^>]*>)?\(/, "", inside); sub(/\)$/, "", inside)
    low = inside; sub(/,.*/, "", low); high = inside; sub(/^[^,]*, */, "", high)
    if (text ~ /^more_than_up_to\(/) return "more than " low ", up to " high
    if (text ~ /^more_than\(/) return "more than " low
    if (text ~ /^at_least\(/) return low " or more"
    if (text ~ /^between\(/) return low " to " high
    if (text ~ /^any_finite/) return "any finite"
    if (text ~ /^about_an_instrument/) return "within 5 m of where it is told from"
    return ""
}
# "sqrt(T/mu)/(2 L)" as TeX sets it.
function tex(text,    out, word, base, tail, close_at) {
    out = ""
    while (text != "") {
        if (match(text, /^sqrt\(/)) {
            close_at = closing(text, 5)
            out = out "\\sqrt{" tex(substr(text, 6, close_at - 6)) "}"
            text = substr(text, close_at + 1)
        } else if (match(text, /^\^\(/)) {
            close_at = closing(text, 2)
            out = out "^{" tex(substr(text, 3, close_at - 3)) "}"
            text = substr(text, close_at + 1)
        } else if (match(text, /^\^-?[0-9.]+/) || match(text, /^\^[A-Za-z]+/)) {
            word = substr(text, 2, RLENGTH - 1)
            text = substr(text, RLENGTH + 1)
            out = out "^{" tex(word) "}"
        } else if (match(text, /^[A-Za-z]+[0-9]*(_[A-Za-z0-9]+)?/)) {
            word = substr(text, 1, RLENGTH)
            text = substr(text, RLENGTH + 1)
            base = tail = word
            if (word ~ /_/) { sub(/_.*/, "", base); sub(/^[^_]*_/, "", tail) }
            else if (word ~ /[0-9]$/ && word !~ /^(log2|exp2)$/) { sub(/[0-9]+$/, "", base); sub(/^[A-Za-z]+/, "", tail) }
            else tail = ""
            out = out symbol(base) (tail == "" ? "" : "_{" symbol(tail) "}")
        } else {
            word = substr(text, 1, 1)
            text = substr(text, 2)
            out = out (word == "*" ? "\\cdot " : word == "%" ? "\\%" : word == " " && out ~ /[A-Za-z0-9)}]$/ && text ~ /^[A-Za-z(]/ ? "\\," : word)
        }
    }
    return out
}
function symbol(word) {
    if (word ~ /^(mu|pi|beta|kappa|alpha|theta|rho|Gamma)$/) return "\\" word " "
    if (word == "eps") return "\\varepsilon "
    if (word ~ /^(sin|cos|tan|ln|exp|sum)$/) return "\\" word " "
    if (word ~ /^(log2|exp2)$/) return "\\" substr(word, 1, 3) "_2 "
    if (word == "atan") return "\\arctan "
    if (word == "integral") return "\\int "
    if (length(word) > 2 || word ~ /^(mm|in|Hz)$/) return "\\mathrm{" word "}"
    return word
}
# Where the bracket that opens at a place of the text closes.
function closing(text, from,    depth, k, c) {
    depth = 0
    for (k = from; k <= length(text); k++) {
        c = substr(text, k, 1)
        if (c == "(") depth++
        if (c == ")" && --depth == 0) return k
    }
    return length(text) + 1
}
function is_formula(text) {
    return text ~ /\^|sqrt\(|[A-Za-z)] = .*[-+*\/(]|\/\(|^[A-Za-z]+\/[A-Z][A-Za-z]?$/ && text !~ /::|"|{|;|<|==|&|->|\[|#|`/
}
# Code spans of a comment that are formulas become so.
function with_formulas(text,    out, span) {
    out = ""
    while (match(text, /`[^`]+`/)) {
        span = substr(text, RSTART + 1, RLENGTH - 2)
        out = out substr(text, 1, RSTART - 1)
        text = substr(text, RSTART + RLENGTH) # before tex, which matches too
        out = out (is_formula(span) ? "\\f$" tex(span) "\\f$" : "`" span "`")
    }
    return out text
}
# What one `require...(...)` of a function asks, in words.
function asked(text,    name, rule) {
    if (!match(text, /"[^"]+"/)) return ""
    name = substr(text, RSTART + 1, RLENGTH - 2)
    if (text ~ /^require_valid\(/) return name " valid"
    rule = substr(text, RSTART + RLENGTH)
    if (text ~ /^require_that\(/) {
        if (!match(rule, /"must [^"]+"/)) return ""
        return name " " substr(rule, RSTART + 1, RLENGTH - 2)
    }
    sub(/^[^,]*, */, "", rule)
    rule = " " rule # what is checked may itself be a call, of distance_between, say
    if (!match(rule, /[ ,(](more_than_up_to|more_than|at_least|between|any_finite)[(<]/)) return ""
    rule = substr(rule, RSTART + 1); sub(/\)$/, "", rule)
    rule = range_in_words(rule)
    return rule == "" ? "" : name " " rule
}
# The refusals of the function whose declaration begins at line i, or "".
function refusals(i,    k, body, text, one, all_asked, at) {
    body = ""
    for (k = i; k <= NR && k < i + 120; k++) {
        text = line[k]
        sub(/ *\/\/.*/, "", text)
        body = body " " text
        if (k > i && line[k] ~ /^}/ || line[k] ~ /^[^ ].*\{.*\}$/ || line[k] ~ /^[^ ].*;$/) break
    }
    all_asked = ""
    sub(/^[^{]*\{/, "", body)
    while (match(body, /require(_valid|_that)?\(/)) {
        body = substr(body, RSTART)
        at = closing(body, index(body, "("))
        one = asked(substr(body, 1, at))
        if (one != "" && index(all_asked "; ", "; " one "; ") == 0) all_asked = all_asked "; " one
        body = substr(body, at)
    }
    return substr(all_asked, 3)
}
# Doxygen takes a comment to be of the name before it when it says so with "<".
function after(text) { return "  /**< " text " */" }

{ line[NR] = $0 }
/^(template .*)?(struct|class) [a-z_]+/ { block++ }
{ block_of[NR] = block }
# How a kind is written, from the sentence that asks for it.
/^constexpr void wanted\(kind<unit::[a-z_]+>\) \{/ { asking = $0; sub(/^[^:]*::/, "", asking); sub(/>.*/, "", asking) }
asking != "" && /: write / { text = $0; sub(/.*: write /, "", text); sub(/".*/, "", text); written[asking] = text; asking = "" }
# A range that several members share.
/^ *const auto [a-z]+ = (between|more_than_up_to)\(/ { name = $4 == "=" ? $3 : ""; text = $0; sub(/^[^=]*= /, "", text); sub(/;$/, "", text); shared[name] = text }
/^ *visit\("[a-z_0-9]+", [a-z_]+/ && !/^ *visit\("[a-z_0-9]+", self\./ {
    name = $0; sub(/^ *visit\("/, "", name); sub(/".*/, "", name)
    text = $0; sub(/^ *visit\("[a-z_0-9]+", /, "", text); sub(/, self\..*/, "", text); sub(/,$/, "", text)
    reason = ""
    if (match(text, /\.fair_default\("[^"]*"\)/)) { reason = "; may be left out: " substr(text, RSTART + 15, RLENGTH - 17); text = substr(text, 1, RSTART - 1) }
    if (text in shared) text = shared[text]
    range[block, name] = range_in_words(text) reason
}
END {
    for (i = 1; i <= NR; i++) {
        if (line[i] ~ /^namespace kernel/) inside = 1
        if (line[i] ~ /^} \/\/ namespace kernel/) inside = 0
        if (inside || line[i] !~ /^(\[\[nodiscard|constexpr|inline|void|basic_|std::).*\(|^\[\[nodiscard\]\] constexpr [^(]*$/ || line[i] ~ /^inline constexpr unit_tag/) continue
        for (first = i; line[first - 1] ~ /^(template|requires)/; first--) {}
        if (line[first - 1] ~ /^\/\/\//) refused[first] = refusals(i)
    }
    for (i = 1; i <= NR; i++) {
        $0 = line[i]
        # What refuses other kinds is said by the compiler, not by the reference.
        if (/^\/\/\/ Refused: (other kinds|points)/) refusing = 1
        if (refusing) { refusing = !/;$/; print ""; documented = 0; continue }
        if (refused[i] != "") $0 = "/** @exception invalid_input unless: " refused[i] ". */ " $0
        comment = $0 ~ /^ *\/\/\//
        if (match($0, /\/\/\//)) $0 = substr($0, 1, RSTART - 1) with_formulas(substr($0, RSTART))
        # Macros are of no use outside their header: their definitions go, what they make is written out.
        if (/^#define/ && !/^#define TAUTLINE_VERSION/) cut = 1
        if (cut) { cut = /\\$/; print ""; documented = 0; continue }
        if (/^TAUTLINE_KIND\(/) {
            split(substr($0, 15), part, /, */)
            print "/** A kind of quantity over number type R: " part[1] ". Written `" written[part[1]] "`. */ template <class R = double> using " part[1] " = bu::quantity<unit::" part[1] ", R>;"
            continue
        }
        if (/^TAUTLINE_LITERAL\(/) {
            split(substr($0, 18), part, /[,)] */)
            print "/** `1.5_" part[1] "` is `1.5 * units::" part[2] "`. */ constexpr auto operator\"\"_" part[1] "(long double v); /** `2_" part[1] "` is `2 * units::" part[2] "`. */ constexpr auto operator\"\"_" part[1] "(unsigned long long v);"
            continue
        }
        if (/^template <class T>$/ && line[i + 1] ~ /^concept an?_[a-z_]+ = of_kind<T, unit::/) {
            kind = line[i + 1]; sub(/.*unit::/, "", kind); sub(/>;.*/, "", kind)
            $0 = "/** Whether T is of the kind " kind ", over any number type. */ " $0
            documented = 1
        }
        sub(/ *TAUTLINE_REFUSED\("[^"]*"\)/, " = delete")
        # What is said to Boost about units is nobody else'"'"'s.
        if (/^namespace boost::units \{/) elsewhere = 1
        if (elsewhere) { elsewhere = !/^} \/\/ namespace boost::units/; print ""; continue }
        if (/^inline constexpr unit_tag<unit::[a-z_]+> /) {
            kind = $0; sub(/^[^:]*::/, "", kind); sub(/>.*/, "", kind)
            rest = $0; sub(/^[^>]*> /, "", rest); sub(/;.*/, "", rest); count = split(rest, tag, /, /)
            text = ""
            for (k = 1; k <= count; k++) {
                size = tag[k]; sub(/^[^{]*{/, "", size); sub(/}.*/, "", size); gsub(/L/, "", size)
                text = text "/** `2 * " substr(tag[k], 1, index(tag[k], "{") - 1) "` is of the kind " kind "; one is " size " in SI. */ inline constexpr unit_tag<unit::" kind "> " tag[k] "; "
            }
            print text
            continue
        }
        if (/^namespace unit \{/) in_units = 1
        if (in_units && /^using /) $0 = "/** Unit of " $2 " in SI. */ " $0
        if (/^} \/\/ namespace unit$/) in_units = 0
        if (/^struct kind;/) { print; documented = 0; continue }
        if (!documented) {
            if (/^ *using [a-z_]+ = (basic_)?[a-z_]+<double>;/) sub(/using [a-z_]+ = /, "/** The same over double. */ &")
            if (/^ *using real = /) sub(/using real = /, "/** The number type. */ &")
            if (/^ *template <class Visit, class\.\.\. Self>/) sub(/template/, "/** Calls `visit` with name, range and every member of each of `self`; from it come validate, over and the paths of a model. */ &")
            if (/^ *template <class Report>$/ && line[i + 1] !~ /::/) sub(/template/, "/** Calls `report` with field and sentence for each rule between members that is broken. */ &")
        }
        # A member with a range.
        if (!comment && /^    [a-z].*;/ && /[a-z_0-9]+(\{[^;]*\}| = [^;]*)?;/ && !/\(\) const/) {
            name = $0; sub(/;.*/, "", name); sub(/(\{.*| = .*)$/, "", name); sub(/.* /, "", name)
            r = range[block_of[i], name]
            if (r != "") {
                if ($0 ~ /\/\/\/</) $0 = $0 "; range: " r "."
                else $0 = $0 after("Range: " r ".")
            }
        }
        print
        documented = comment || (documented && $0 ~ /^ *(template|requires)/)
    }
}' "$1"
