#include "core/exchange/method_words.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/number_reader.h"
#include "core/exchange/read_text.h"
#include "core/exchange/tokens.h"

#include "core/base/text.h"

#include <algorithm>
#include <unordered_set>

namespace stillroom::exchange {

namespace {

using spec::Technique;
using WordSet = std::unordered_set<std::string_view>;

bool in(const WordSet& set, const Token& t) {
    return t.kind == TokenKind::Word && set.count(t.folded) != 0;
}

const WordSet& shakeWords() {
    static const WordSet set{"shake",     "shaken",  "shaking",   "shakes",    "schutteln", "geschuttelt",
                             "schuttle",  "shaken",  "secouer",   "secouez",   "secoue",    "shaker",
                             "frapper",   "frappez", "agitar",    "agite",     "agita",     "agitad",
                             "shakerare", "shakera", "shakerate", "agitare",   "agitate",   "schudden",
                             "schud",     "agitez",  "shakez",    "coctelera", "scuotere"};
    return set;
}
const WordSet& stirWords() {
    static const WordSet set{"stir",      "stirred",  "stirring", "stirs",    "ruhren",    "verruhren",
                             "geruhrt",   "umruhren", "ruhre",    "remuer",   "remuez",    "remover",
                             "remueve",   "remueva",  "revolver", "revuelve", "mescolare", "mescola",
                             "mescolate", "girare",   "roeren",   "roer",     "melanger"};
    return set;
}
const WordSet& blendWords() {
    static const WordSet set{"blend",    "blended",  "blender",    "blending",   "blitz",  "blitzed",
                             "mixez",    "mixer",    "standmixer", "licuar",     "licua",  "licuadora",
                             "batidora", "frullare", "frulla",     "frullatore", "spindle"};
    return set;
}
const WordSet& buildWords() {
    static const WordSet set{"build", "built", "building", "construir", "swizzle",
                             "churn", "bauen", "verser",   "construire"};
    return set;
}
const WordSet& iceWords() {
    static const WordSet set{"ice",        "cube",     "cubes",   "iced",   "eis",        "eiswurfel",
                             "eiswurfeln", "glace",    "glacons", "glacon", "glaces",     "hielo",
                             "hielos",     "ghiaccio", "cubetti", "ijs",    "ijsblokjes", "gelo"};
    return set;
}
const WordSet& strainWords() {
    static const WordSet set{"strain",   "strained", "straining", "strains", "abseihen", "abgeseiht",
                             "seihen",   "passer",   "passez",    "filtrer", "filtrez",  "filtrare",
                             "filtrate", "colar",    "cuele",     "colad",   "filtra",   "sieve",
                             "absieben", "strainen", "zeven",     "doppelt"};
    return set;
}
// The other verbs of methods.
const WordSet& otherVerbs() {
    static const WordSet set{
        "add", "pour", "mix", "combine", "muddle", "press", "dissolve", "fill", "serve", "top", "float",
        "rinse", "discard", "place", "put", "squeeze", "express", "rub", "coat", "chill", "cool", "freeze",
        "heat", "warm", "boil", "simmer", "steep", "infuse", "rest", "let", "leave", "store", "bottle",
        "whisk", "whip", "beat", "fold", "layer", "drizzle", "dot", "grate", "dust", "spray", "garnish",
        "wet", "crush", "bruise", "clap", "slap", "roll", "throw", "swirl", "wet", "lengthen", "lift",
        "cover", "seal", "squeeze", "cut", "slice", "chop", "pass", "press", "filter", "clarify", "curdle",
        "carbonate", "charge", "pulse", "stand", "return", "use", "make", "prepare", "flame", "ignite",
        "melt", "sprinkle", "enjoy", "drink", "sip", "finish", "bring", "remove", "soak", "toast", "roast",
        "grind", "batch", "measure", "keep", "ladle", "transfer", "decant",
        // German
        "alles", "alle", "geben", "giessen", "aufgiessen", "auffullen", "fullen", "mischen", "vermengen",
        "servieren", "garnieren", "losen", "auflosen", "zerdrucken", "mixen", "erhitzen", "kochen", "ziehen",
        "abkuhlen", "zugeben",
        // French
        "mettre", "mettez", "ajouter", "ajoutez", "versez", "melangez", "piler", "pilez", "servir", "servez",
        "decorer", "decorez", "completer", "completez", "chauffer", "laisser", "dissoudre", "presser",
        "allonger",
        // Spanish
        "poner", "anadir", "verter", "mezclar", "machacar", "anade", "vierte", "mezcla", "machaca", "sirve",
        "echar", "echa", "completar", "completa", "decora", "decorar", "calentar",
        // Italian
        "mettere", "aggiungere", "versare", "unire", "pestare", "versate", "aggiungete", "servire",
        "guarnire", "decorare", "colmare", "scaldare", "mettete",
        // Dutch, Portuguese
        "doe", "voeg", "schenk", "meng", "serveer", "coloque", "misture", "adicione", "sirva"};
    return set;
}

bool anyVerb(const Token& t) {
    return in(shakeWords(), t) || in(stirWords(), t) || in(blendWords(), t) || in(buildWords(), t) ||
           in(strainWords(), t) || in(otherVerbs(), t);
}

// One method's words, scanned for what matters.
class MethodReader {
  public:
    explicit MethodReader(std::string_view text) : m_line(cleanLine(text).text) {}

    spec::Method read(std::string_view text) {
        spec::Method method;
        method.text = std::string(text);
        for (std::size_t i = 0; i < m_line.size(); ++i)
            look(i);
        method.technique = technique();
        method.dryShake = m_dryShake || (m_withoutIce && m_shake);
        method.strained = strained(method.technique);
        method.seconds = seconds(method.technique);
        method.ice = ice();
        if (const auto ratio = dilution())
            method.dilution = spec::DilutionEntry{*ratio, spec::DilutionOrigin::Typed, std::string(text)};
        return method;
    }

  private:
    const Token& tok(std::size_t i) const { return m_line.at(i); }
    bool pair(std::size_t i, std::string_view a, std::string_view b) const {
        const std::size_t next = tok(i + 1).isMark("-") ? i + 2 : i + 1;
        return tok(i).isWord(a) && tok(next).isWord(b);
    }

    void look(std::size_t i) {
        const Token& t = tok(i);
        if (t.kind != TokenKind::Word) return;
        lookForTechnique(i, t);
        if (in(strainWords(), t)) m_strains = true;
        if (t.isWord("unstrained") || pair(i, "without", "straining") || pair(i, "not", "strain") ||
            pair(i, "don't", "strain") || t.isWord("dump") || t.isWord("ungefiltert") ||
            pair(i, "open", "pour"))
            m_unstrained = true;
        const bool without = t.isWord("without") || t.isWord("ohne") || t.isWord("sans") || t.isWord("sin") ||
                             t.isWord("senza") || t.isWord("no");
        const bool withoutIce = without && (in(iceWords(), tok(i + 1)) || in(iceWords(), tok(i + 2)));
        const bool named = in(iceWords(), t) && !tok(i + 1).isWord("cream") && !pair(i, "ice", "cold");
        if (named && !(i > 0 && isWithout(i - 1)) && !(i > 1 && isWithout(i - 2))) m_ice = true;
        m_dissolves |= t.isWord("dissolve") || t.isWord("dissolves") || t.isWord("dissolved");
        if (pair(i, "dry", "shake") || pair(i, "dry", "shaken") || pair(i, "dry", "shaking"))
            m_dryShake = true;
        m_withoutIce |= withoutIce;
    }

    bool isWithout(std::size_t i) const {
        const Token& t = tok(i);
        return t.isWord("without") || t.isWord("ohne") || t.isWord("sans") || t.isWord("sin") ||
               t.isWord("senza") || t.isWord("no");
    }

    void lookForTechnique(std::size_t i, const Token& t) {
        m_shake |= in(shakeWords(), t);
        if (in(stirWords(), t)) {
            m_stir = true;
            const Token& next = tok(i + 1);
            const Token& before = i > 0 ? tok(i - 1) : t;
            static const WordSet soft{"once",  "briefly", "gently", "lightly",   "quickly",
                                      "twice", "kurz",    "leicht", "brevemente"};
            m_softStir = in(soft, next) || in(soft, before);
        }
        m_blend |= in(blendWords(), t);
        m_build |= in(buildWords(), t) || pair(i, "in", "glas");
        m_throw |= t.isWord("throw") || t.isWord("thrown") || t.isWord("throwing") || t.isWord("escanciar");
        m_bath |= pair(i, "water", "bath") || pair(i, "bain", "marie") || pair(i, "sous", "vide") ||
                  t.isWord("wasserbad") || t.isWord("bagnomaria") || pair(i, "bano", "maria");
        static const WordSet hot{
            "hot",          "boil",     "boiling",   "boiled",   "simmer",  "simmering", "heat",  "heated",
            "near-boiling", "heiss",    "heissem",   "heisses",  "kochend", "kochendem", "chaud", "chaude",
            "bouillante",   "caliente", "hirviendo", "bollente", "caldo",   "calda",     "steam", "steamed"};
        m_hot |= in(hot, t);
        static const WordSet whip{"whip",        "whipped",  "whisk", "beat",
                                  "aufschlagen", "fouetter", "batir", "montare"};
        m_whip |= in(whip, t);
        static const WordSet gas{"carbonate", "carbonated", "siphon", "sodastream", "co2", "kohlensaure"};
        m_gas |= t.isWord("carbonate") || t.isWord("siphon") || t.isWord("co2") ||
                 (in(gas, t) && !t.isWord("carbonated"));
        static const WordSet clear{"clarify", "clarifying", "curdle", "curdles",   "curdled",
                                   "curd",    "curds",      "klaren", "clarifier", "clarificar"};
        m_clarify |= in(clear, t);
        m_milk |= t.isWord("milk") || t.isWord("milch") || t.isWord("lait") || t.isWord("leche") ||
                  t.isWord("latte");
        m_cloth |= t.isWord("cloth") || t.isWord("muslin") || t.isWord("cheesecloth") || t.isWord("bright") ||
                   pair(i, "runs", "clear") || pair(i, "coffee", "filter") || t.isWord("bag");
        m_other |= in(otherVerbs(), t);
    }

    Technique technique() const {
        if (m_clarify || (m_milk && m_cloth && m_strains)) return Technique::Clarify;
        if (m_bath) return Technique::WaterBath;
        if (m_blend && !m_shake) return Technique::Blend;
        if (m_shake) return Technique::Shake;
        if (m_throw) return Technique::Throw;
        if (m_blend) return Technique::Blend;
        const bool stirredToDissolve = m_dissolves && !m_ice && !m_strains;
        if (m_stir && !stirredToDissolve && !(m_build && m_softStir) && (m_ice || m_strains || !m_other) &&
            !(m_hot && !m_ice))
            return Technique::Stir;
        if (m_hot && !m_ice) return Technique::Hot;
        if (m_gas) return Technique::Carbonate;
        if (m_whip && !m_build && !m_stir) return Technique::Whip;
        if (m_build || m_stir || m_other || m_strains) return Technique::Build;
        return Technique::None;
    }

    bool strained(Technique technique) const {
        if (m_unstrained) return false;
        if (m_strains) return true;
        return technique == Technique::Shake || technique == Technique::Stir || technique == Technique::Throw;
    }

    // How long it is shaken or stirred: the first time said in the part that names the technique with ice.
    std::optional<quantity::Rational> seconds(Technique technique) const {
        const WordSet* verbs = technique == Technique::Shake  ? &shakeWords()
                               : technique == Technique::Stir ? &stirWords()
                                                              : nullptr;
        std::optional<quantity::Rational> found;
        bool verbSeen = false;
        bool dry = false;
        for (std::size_t i = 0; i < m_line.size(); ++i) {
            const Token& t = tok(i);
            if (t.isMark(".") || t.isMark(";") || t.isMark(",")) {
                if (t.isMark(".")) verbSeen = false;
                dry = false;
            }
            if (verbs != nullptr && in(*verbs, t)) {
                verbSeen = true;
                dry = i > 0 && tok(i - 1).isWord("dry");
            }
            if (isWithout(i) && in(iceWords(), tok(i + 1))) dry = true;
            if (!verbSeen) continue;
            const auto time = timeAt(i);
            if (!time) continue;
            if (!dry && !laterDry(i)) return time;
            if (!found) found = time;
        }
        return found;
    }

    // "shake without ice for one minute" says so before or after the figure.
    bool laterDry(std::size_t i) const {
        for (std::size_t k = i; k < m_line.size() && k < i + 8; ++k) {
            if (tok(k).isMark(".") || tok(k).isMark(",") || tok(k).isMark(";")) return false;
            if (isWithout(k) && in(iceWords(), tok(k + 1))) return true;
        }
        return false;
    }

    // "to 22 % dilution": over the start, as dilution is counted here. "No water is added": none.
    std::optional<double> dilution() const {
        for (std::size_t i = 0; i + 1 < m_line.size(); ++i) {
            if (isWithout(i) && (tok(i + 1).isWord("water") || tok(i + 1).isWord("dilution"))) return 0.0;
            if (tok(i).kind == TokenKind::Mark || tok(i).kind == TokenKind::Word) continue;
            const auto number = readNumber(m_line, i);
            if (!number || number->refusal || !number->amount.isStated()) continue;
            if (!tok(number->next).isMark("%") || !tok(number->next + 1).isWord("dilution")) continue;
            const double percent = number->amount.high.toDouble();
            if (percent >= 0 && percent <= 300) return percent / 100;
        }
        return std::nullopt;
    }

    std::optional<quantity::Rational> timeAt(std::size_t i) const {
        const TokenKind kind = tok(i).kind;
        if (kind == TokenKind::Mark || kind == TokenKind::Symbol) return std::nullopt;
        if (kind == TokenKind::Word && (tok(i).isWord("a") || tok(i).isWord("some"))) return std::nullopt;
        if (i > 0 && tok(i - 1).kind == TokenKind::Digits) return std::nullopt;
        const auto number = readNumber(m_line, i);
        if (!number || number->refusal || !number->amount.isStated()) return std::nullopt;
        const std::size_t unit = tok(number->next).isMark("-") ? number->next + 1 : number->next;
        static const WordSet kSeconds{"s",       "sec",      "secs",    "second",  "seconds",
                                      "sekunde", "sekunden", "sek",     "seconde", "secondes",
                                      "segundo", "segundos", "secondo", "secondi", "seconden"};
        static const WordSet kMinutes{"min",     "mins",   "minute",  "minutes",
                                      "minuten", "minuto", "minutos", "minuti"};
        const quantity::Rational middle = number->amount.high;
        if (in(kSeconds, tok(unit))) return middle;
        if (in(kMinutes, tok(unit))) return middle.times(60);
        return std::nullopt;
    }

    // "over a big cube", "with crushed ice", "120 g of wet cubes"
    std::string ice() const {
        for (std::size_t i = 0; i < m_line.size(); ++i) {
            if (!in(iceWords(), tok(i)) || tok(i + 1).isWord("cream")) continue;
            std::size_t end = i + 1;
            if (in(iceWords(), tok(end))) ++end;
            std::size_t first = i;
            bool without = false;
            static const WordSet stops{"with", "over", "on",  "in",   "and", "mit",    "auf",  "avec",
                                       "sur",  "con",  "su",  "add",  "the", "plenty", "into", "des",
                                       "de",   "en",   "dem", "till", "all", "until"};
            while (first > 0 && i - first < 6) {
                const Token& before = tok(first - 1);
                if (isWithout(first - 1)) without = true;
                if (before.kind == TokenKind::Mark && !before.isMark("-")) break;
                if (in(stops, before) || (anyVerb(before) && !before.isWord("wet")) || without) break;
                --first;
            }
            if (without) continue;
            while (first < i && (tok(first).isWord("a") || tok(first).isWord("an") ||
                                 tok(first).isWord("one") || tok(first).isWord("of")))
                ++first;
            return m_line.slice(first, end);
        }
        return {};
    }

    TokenLine m_line;
    bool m_shake = false;
    bool m_stir = false;
    bool m_softStir = false;
    bool m_blend = false;
    bool m_build = false;
    bool m_throw = false;
    bool m_bath = false;
    bool m_hot = false;
    bool m_whip = false;
    bool m_gas = false;
    bool m_clarify = false;
    bool m_milk = false;
    bool m_cloth = false;
    bool m_other = false;
    bool m_dissolves = false;
    bool m_ice = false;
    bool m_strains = false;
    bool m_unstrained = false;
    bool m_dryShake = false;
    bool m_withoutIce = false;
};

// Glasses by their trade names; the word "glass" may follow.
struct Glass {
    std::string_view words;
    std::string_view name;
};
constexpr Glass kGlasses[] = {{"nick & nora", "Nick & Nora"},
                              {"nick and nora", "Nick & Nora"},
                              {"old fashioned", "rocks"},
                              {"double rocks", "double rocks"},
                              {"julep cup", "julep cup"},
                              {"julep tin", "julep cup"},
                              {"copper mug", "copper mug"},
                              {"punch cup", "punch cup"},
                              {"wine glass", "wine"},
                              {"wineglass", "wine"},
                              {"shot glass", "shot"},
                              {"champagne flute", "flute"},
                              {"cocktail glass", "cocktail"},
                              {"martini glass", "martini"},
                              {"sour glass", "sour"},
                              {"rocks", "rocks"},
                              {"lowball", "rocks"},
                              {"highball", "highball"},
                              {"collins", "collins"},
                              {"coupe", "coupe"},
                              {"coupette", "coupe"},
                              {"flute", "flute"},
                              {"tumbler", "tumbler"},
                              {"hurricane", "hurricane"},
                              {"snifter", "snifter"},
                              {"goblet", "goblet"},
                              {"sling", "sling"},
                              {"mug", "mug"},
                              {"tiki mug", "tiki mug"},
                              {"copa", "copa"},
                              {"balloon", "balloon"},
                              {"pilsner", "pilsner"},
                              {"cocktailglas", "cocktail"},
                              {"longdrinkglas", "highball"},
                              {"sektflote", "flute"},
                              {"cocktailschale", "coupe"}};

} // namespace

bool soundsLikeMethod(std::string_view text) {
    const TokenLine line(cleanLine(text).text);
    for (std::size_t i = 0; i < line.size(); ++i)
        if (anyVerb(line.at(i))) return true;
    return false;
}

bool startsWithVerb(std::string_view text) {
    const TokenLine line(cleanLine(text).text);
    std::size_t i = 0;
    while (i < line.size() && line.at(i).kind == TokenKind::Mark)
        ++i;
    // "Dry shake", "Quarter-fill", "Then strain"
    static const WordSet before{"dry",   "double",  "fine",      "hard",    "quarter", "half",
                                "wet",   "reverse", "gently",    "lightly", "quickly", "then",
                                "first", "now",     "carefully", "slowly",  "briefly", "finally"};
    if (in(before, line.at(i))) {
        ++i;
        while (line.at(i).isMark("-") || line.at(i).isMark(","))
            ++i;
    }
    return anyVerb(line.at(i));
}

std::string glassNamed(std::string_view text) {
    const std::string folded = std::string(" ").append(base::fold(text)).append(" ");
    std::string_view best;
    std::size_t length = 0;
    for (const Glass& glass : kGlasses) {
        std::string words(" ");
        words += glass.words;
        const std::size_t at = folded.find(words);
        if (at == std::string::npos || words.size() <= length) continue;
        const char after = folded[at + words.size()];
        if (after >= 'a' && after <= 'z') continue;
        best = glass.name;
        length = words.size();
    }
    return std::string(best);
}

std::string glassIn(std::string_view text) {
    const TokenLine line(cleanLine(text).text);
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Token& t = line.at(i);
        const bool into =
            t.isWord("into") || t.isWord("in") || t.isWord("im") || t.isWord("dans") || t.isWord("en");
        if (!into) continue;
        std::size_t end = i + 1;
        while (end < line.size() && end < i + 8 && !line.at(end).isMark(".") && !line.at(end).isMark(",") &&
               !line.at(end).isMark(";") && !line.at(end).isWord("with") && !line.at(end).isWord("over"))
            ++end;
        if (std::string glass = glassNamed(line.slice(i + 1, end)); !glass.empty()) return glass;
    }
    return {};
}

spec::Method readMethod(std::string_view text) {
    return MethodReader(text).read(text);
}

} // namespace stillroom::exchange
