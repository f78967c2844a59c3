#include "core/larder/written_name.h"

#include "core/base/text.h"
#include "core/larder/guarded_json.h"

#include <algorithm>
#include <array>
#include <utility>

namespace stillroom::larder {

namespace {

using Words = std::vector<std::string>;

constexpr bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

bool endsWith(std::string_view text, std::string_view ending) {
    return text.size() >= ending.size() && text.substr(text.size() - ending.size()) == ending;
}

template <std::size_t N>
bool isOneOf(std::string_view word, const std::array<std::string_view, N>& list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

// Words that do not change what a thing is. Articles and prepositions of the languages the handbook's aliases
// are written in; words of praise, size and place.
constexpr std::array<std::string_view, 57> kFillers{
    "a",       "an",      "the",      "of",        "for",      "your",     "our",       "some",  "and",
    "fresh",   "freshly", "squeezed", "pressed",   "house",    "homemade", "housemade", "home",  "made",
    "quality", "good",    "best",     "favourite", "favorite", "premium",  "organic",   "ripe",  "large",
    "small",   "medium",  "big",      "style",     "type",     "strained", "chilled",   "de",    "d",
    "du",      "des",     "la",       "le",        "les",      "l",        "del",       "della", "di",
    "da",      "al",      "alla",     "au",        "aux",      "el",       "lo",        "il",    "y",
    "und",     "et",      "e"};

constexpr std::array<std::string_view, 12> kHeadComesBefore{"of", "de", "d",    "du", "des", "del",
                                                            "di", "da", "dell", "au", "aux", "for"};

constexpr std::array<std::pair<std::string_view, std::string_view>, 15> kSpellings{{
    {"whiskey", "whisky"},
    {"whiskie", "whisky"}, // what stemming leaves of "whiskies"
    {"wisky", "whisky"},
    {"chili", "chilli"},
    {"chile", "chilli"},
    {"chilie", "chilli"},
    {"chily", "chilli"},
    {"licorice", "liquorice"},
    {"castor", "caster"},
    {"syrop", "syrup"},
    {"sirup", "syrup"},
    {"yoghurt", "yogurt"},
    {"yoghourt", "yogurt"},
    {"flavored", "flavoured"},
    {"pasteurized", "pasteurised"},
}};

// After a percentage, these say what it is a percentage of: not the strength of a spirit.
constexpr std::array<std::string_view, 26> kNotStrength{
    "agave", "rye",      "juice", "cacao",     "cocoa", "fat",  "citric", "malic",     "saline",
    "salt",  "solution", "cream", "milk",      "fruit", "brix", "pure",   "cranberry", "pomegranate",
    "sugar", "acid",     "dark",  "chocolate", "malt",  "corn", "wheat",  "arabica"};

// Everything that is not a letter, a digit or part of a number becomes a space; '%' stands alone.
std::string withoutPunctuation(std::string_view folded) {
    std::string out;
    for (std::size_t i = 0; i < folded.size(); ++i) {
        const char c = folded[i];
        const bool betweenDigits =
            i > 0 && i + 1 < folded.size() && isDigit(folded[i - 1]) && isDigit(folded[i + 1]);
        const bool letter = (c >= 'a' && c <= 'z') || isDigit(c) || static_cast<unsigned char>(c) >= 0x80;
        if (letter)
            out += c;
        else if (betweenDigits && (c == '.' || c == ':'))
            out += c;
        else if (betweenDigits && c == ',')
            out += '.';
        else if (c == '%')
            out += " % ";
        else
            out += ' ';
    }
    return out;
}

Words splitWords(std::string_view text) {
    Words words;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        if (end > begin) words.emplace_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return words;
}

std::string joined(const Words& words, std::string_view between) {
    std::string out;
    for (const std::string& word : words) {
        if (!out.empty()) out += between;
        out += word;
    }
    return out;
}

bool isFiller(std::string_view word) {
    return isOneOf(word, kFillers);
}

// The word that names the thing, before fillers are dropped: the one before "of" or "de", else the last.
std::string headOf(const Words& plain) {
    std::string last;
    for (const std::string& word : plain) {
        if (!last.empty() && isOneOf(word, kHeadComesBefore)) break;
        if (!isFiller(word) && word != "%") last = word;
    }
    return wordStem(last);
}

// Up to the first comma: "sugar, granulated" is sugar.
std::string_view beforeComma(std::string_view folded) {
    for (std::size_t i = 0; i < folded.size(); ++i) {
        if (folded[i] != ',') continue;
        const bool decimal =
            i > 0 && i + 1 < folded.size() && isDigit(folded[i - 1]) && isDigit(folded[i + 1]);
        if (!decimal) return folded.substr(0, i);
    }
    return folded;
}

WrittenName fromFolded(const std::string& folded) {
    WrittenName name;
    Words plain = splitWords(withoutPunctuation(folded));
    name.folded = joined(plain, " ");
    name.compact = joined(plain, "");
    name.head = headOf(splitWords(withoutPunctuation(beforeComma(folded))));
    for (const std::string& word : plain)
        if (!isFiller(word)) name.words.push_back(wordStem(word));
    // A name that is made of fillers alone keeps them.
    if (name.words.empty()) name.words = std::move(plain);
    Words sorted = name.words;
    std::sort(sorted.begin(), sorted.end());
    name.key = joined(sorted, " ");
    return name;
}

std::string withoutBrackets(std::string_view text, bool& removed) {
    std::string out;
    int depth = 0;
    for (const char c : text) {
        if (c == '(' || c == '[') {
            ++depth;
            removed = true;
            out += ' ';
        } else if (c == ')' || c == ']') {
            depth = std::max(0, depth - 1);
        } else if (depth == 0) {
            out += c;
        }
    }
    return out;
}

bool isYearWord(std::string_view word) {
    constexpr std::array<std::string_view, 10> words{"year", "years", "yr",   "yrs",   "yo",
                                                     "ans",  "anni",  "anos", "jahre", "y.o"};
    return isOneOf(word, words);
}

// "°c" -> "c"; "90°c" -> "90c"
std::string withoutDegreeSign(std::string word) {
    for (const std::string_view sign : {"\u00b0", "\u00ba"})
        for (std::size_t at = word.find(sign); at != std::string::npos; at = word.find(sign))
            word.erase(at, sign.size());
    return word;
}

bool isScale(std::string_view word) {
    constexpr std::array<std::string_view, 5> scales{"c", "f", "celsius", "fahrenheit", "centigrade"};
    return isOneOf(word, scales);
}

// "at 90 °c", "90c", "90 degrees": how hot a thing is poured, which is no part of its name.
Words withoutTemperatures(const Words& plain) {
    Words kept;
    for (std::size_t i = 0; i < plain.size(); ++i) {
        std::size_t next = i;
        const std::string word = withoutDegreeSign(plain[i]);
        const bool signed_ = word != plain[i];
        const bool fused = word.size() > 1 && isScale(std::string_view(word).substr(word.size() - 1)) &&
                           doubleFromText(std::string_view(word).substr(0, word.size() - 1));
        if (fused) {
            next = i + 1;
        } else if (doubleFromText(word)) {
            next = i + 1;
            bool scaled = signed_;
            while (next < plain.size()) {
                const std::string scale = withoutDegreeSign(plain[next]);
                const bool degrees = scale.empty() || scale == "degrees" || scale == "degree" ||
                                     scale == "deg" || scale == "grad";
                if (!degrees && !isScale(scale)) break;
                scaled = true;
                ++next;
                if (!degrees) break;
            }
            if (!scaled) next = i;
        }
        if (next == i) {
            kept.push_back(plain[i]);
            continue;
        }
        while (!kept.empty() && (kept.back() == "at" || kept.back() == "about" || kept.back() == "to"))
            kept.pop_back();
        i = next - 1;
    }
    return kept;
}

// Takes strength, age and temperature out of the words of a name.
Words withoutNumbers(const Words& written, WrittenName& into) {
    const Words plain = withoutTemperatures(written);
    Words kept;
    for (std::size_t i = 0; i < plain.size(); ++i) {
        const std::string next = i + 1 < plain.size() ? plain[i + 1] : "";
        const std::string afterNext = i + 2 < plain.size() ? plain[i + 2] : "";
        const auto number = doubleFromText(plain[i]);
        if (number && next == "%" && *number > 0 && *number < 97.5 && !isOneOf(afterNext, kNotStrength)) {
            into.statedAbv = *number;
            i += 1;
        } else if (number && next == "proof" && *number > 0 && *number <= 195) {
            into.statedAbv = *number / 2; // US proof; the old UK scale is not guessed at
            i += 1;
        } else if (number && isYearWord(next)) {
            into.statedAge = true;
            i += afterNext == "old" ? 2 : 1;
        } else if (into.statedAbv && (plain[i] == "vol" || plain[i] == "abv" || plain[i] == "alc")) {
            continue;
        } else {
            kept.push_back(plain[i]);
        }
    }
    if (kept.size() != written.size()) into.somethingLeft = true;
    return kept;
}

} // namespace

std::string wordStem(std::string_view word) {
    std::string stem(word);
    const auto cut = [&stem](std::size_t n) { stem.resize(stem.size() - n); };
    // A bitter is an aperitivo or an ale; bitters come by the dash.
    if (stem == "bitters") return stem;
    if (stem == "leaves")
        stem = "leaf";
    else if (stem == "halves")
        stem = "half";
    else if (stem.size() > 4 && endsWith(stem, "ies")) {
        cut(3);
        stem += 'y';
    } else if (stem.size() > 4 &&
               (endsWith(stem, "oes") || endsWith(stem, "ches") || endsWith(stem, "shes") ||
                endsWith(stem, "xes") || endsWith(stem, "sses"))) {
        cut(2);
    } else if (stem.size() > 3 && endsWith(stem, "s") && !endsWith(stem, "ss") && !endsWith(stem, "us") &&
               !endsWith(stem, "is")) {
        cut(1);
    }
    for (const auto& [from, to] : kSpellings)
        if (stem == from) return std::string(to);
    return stem;
}

WrittenName readName(std::string_view written) {
    return fromFolded(base::fold(written));
}

WrittenName readNameStripped(std::string_view written) {
    WrittenName found;
    const std::string folded = base::fold(written);
    const std::string plain = withoutBrackets(folded, found.somethingLeft);
    // A strength may stand in the brackets: "rum (63 %)".
    withoutNumbers(splitWords(withoutPunctuation(folded)), found);
    WrittenName ignored;
    // Section by section, so that the comma still parts them for the head.
    std::string text;
    std::string_view rest = plain;
    while (!rest.empty()) {
        const std::string_view section = beforeComma(rest);
        const std::string kept =
            joined(withoutNumbers(splitWords(withoutPunctuation(section)), ignored), " ");
        if (!kept.empty()) text += (text.empty() ? "" : ", ") + kept;
        rest = section.size() < rest.size() ? rest.substr(section.size() + 1) : std::string_view();
    }
    WrittenName name = fromFolded(text);
    name.statedAbv = found.statedAbv;
    name.statedAge = found.statedAge;
    name.somethingLeft = found.somethingLeft;
    return name;
}

std::vector<std::string> choices(std::string_view written) {
    const std::string folded = base::fold(written);
    std::vector<std::string> parts;
    std::string_view rest = folded;
    constexpr std::array<std::string_view, 4> kOr{" or ", " oder ", " ou ", " o "};
    while (true) {
        std::size_t at = std::string_view::npos;
        std::size_t length = 0;
        for (const std::string_view word : kOr)
            if (const std::size_t place = rest.find(word); place < at) {
                at = place;
                length = word.size();
            }
        if (at == std::string_view::npos) break;
        parts.emplace_back(rest.substr(0, at));
        rest.remove_prefix(at + length);
    }
    parts.emplace_back(rest);
    return parts;
}

} // namespace stillroom::larder
