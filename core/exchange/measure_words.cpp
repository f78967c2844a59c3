#include "core/exchange/measure_words.h"

#include <unordered_map>

namespace stillroom::exchange {

namespace {

using quantity::Measure;
using W = UnitWord;

struct Entry {
    UnitWord word;
    bool standsAlone = false;
    bool guessed = false;
    bool plural = false;
};
using Table = std::unordered_map<std::string_view, Entry>;
using Words = std::initializer_list<std::string_view>;

void add(Table& t, W word, Words singular, Words plural = {}, bool standsAlone = false) {
    for (const std::string_view w : singular)
        t.emplace(w, Entry{word, standsAlone, false, false});
    for (const std::string_view w : plural)
        t.emplace(w, Entry{word, false, false, true});
}

void addGuessed(Table& t, W word, Words words) {
    for (const std::string_view w : words)
        t.emplace(w, Entry{word, false, true, false});
}

void addMetric(Table& t) {
    add(t, W::Ml,
        {"ml", "mls", "millilitre", "milliliter", "mililitro", "millilitro", "mil", "cc", "ccm", "мл", "مل",
         "毫升", "ミリリットル", "מל"},
        {"millilitres", "milliliters", "mililitros", "millilitri"});
    add(t, W::Cl, {"cl", "cls", "centilitre", "centiliter", "zentiliter", "centilitro", "сл"},
        {"centilitres", "centiliters", "centilitros", "centilitri"});
    add(t, W::Dl, {"dl", "decilitre", "deciliter", "deziliter", "decilitro"},
        {"decilitres", "deciliters", "decilitros", "decilitri"});
    add(t, W::L, {"l", "ltr", "lt", "litre", "liter", "litro", "л", "لتر"},
        {"ltrs", "litres", "liters", "litros", "litri"});
    add(t, W::Mg, {"mg", "milligram", "milligramme", "milligramm", "miligramo"},
        {"milligrams", "milligrammes"});
    add(t, W::G, {"g", "gr", "gm", "gram", "gramme", "gramm", "gramo", "grammo", "г", "гр", "غرام", "جم"},
        {"gs", "gms", "grs", "grams", "grammes", "gramos", "grammi"});
    add(t, W::Kg, {"kg", "kilo", "kilogram", "kilogramme", "kilogramm", "kilogramo", "chilo", "кг"},
        {"kgs", "kilos", "kilograms", "kilogrammes", "chili"});
}

void addOunces(Table& t) {
    add(t, W::Ounce, {"oz", "ounce", "unze", "onza", "oncia"},
        {"ozs", "ounces", "unzen", "onzas", "once", "onces"});
    add(t, W::FluidOunce,
        {"fl oz", "floz", "fl ounce", "fluid ounce", "fluid oz", "oz fl", "onza liquida", "once liquide"},
        {"fl ozs", "fl ounces", "fluid ounces", "onzas liquidas", "onces liquides"});
    add(t, W::Lb, {"lb", "pound", "pfund", "livre", "libra", "libbra"},
        {"lbs", "pounds", "livres", "libras", "libbre"});
    add(t, W::Cup, {"cup", "cupful", "teacup", "teacupful"}, {"cups", "cupfuls", "cupsful", "teacups"});
    addGuessed(t, W::Cup, {"c"});
    add(t, W::CupMetric, {"tasse", "taza", "tazza", "xicara", "kopje"},
        {"tassen", "tasses", "tazas", "tazze"});
    add(t, W::Pint, {"pint", "pt"}, {"pints", "pts"});
    add(t, W::Quart, {"quart", "qt"}, {"quarts", "qts"});
    add(t, W::Gallon, {"gallon", "gal"}, {"gallons", "gals"});
    add(t, W::Gill, {"gill"}, {"gills"});
}

void addSpoons(Table& t) {
    add(t, W::Tsp, {"tsp", "tspn", "t", "teaspoon", "tea spoon", "teaspoonful", "tea spoonful"},
        {"tsps", "tspns", "teaspoons", "tea spoons", "teaspoonfuls", "teaspoonsful", "tea spoonfuls"}, false);
    add(t, W::Tbsp,
        {"tbsp", "tbs", "tbl", "tblsp", "tblspn", "tbspn", "tablespoon", "table spoon", "tablespoonful",
         "table spoonful"},
        {"tbsps", "tbls", "tblsps", "tablespoons", "table spoons", "tablespoonfuls", "tablespoonsful",
         "table spoonfuls"});
    add(t, W::TspMetric,
        {"tl",
         "teeloffel",
         "kaffeeloffel",
         "teel",
         "cuillere a cafe",
         "cuillere a the",
         "cuil a cafe",
         "cuill a cafe",
         "c a c",
         "c a cafe",
         "cac",
         "cucharadita",
         "cdta",
         "cdita",
         "cucharilla",
         "cucchiaino",
         "colher de cha",
         "theelepel",
         "theelepeltje",
         "tsk",
         "ts",
         "小さじ",
         "ч л"},
        {"teeloffeln", "cuilleres a cafe", "cucharaditas", "cdtas", "cucchiaini", "colheres de cha",
         "theelepels"});
    add(t, W::TbspMetric,
        {"el", "essloffel", "essl", "cuillere a soupe", "cuil a soupe", "cuill a soupe", "c a s", "c a soupe",
         "cas", "cucharada", "cda", "cucchiaio", "colher de sopa", "eetlepel", "msk", "spsk", "大さじ",
         "ст л"},
        {"essloffeln", "cuilleres a soupe", "cucharadas", "cdas", "cucchiai", "colheres de sopa",
         "eetlepels"});
    add(t, W::Dessertspoon, {"dessertspoon", "dessert spoon", "dessertspoonful", "dsp", "dssp", "dstspn"},
        {"dessertspoons", "dessert spoons", "dessertspoonfuls", "dessertspoonsful"});
    add(t, W::Barspoon,
        {"barspoon", "bar spoon", "barspoonful", "bar spoonful", "bsp", "bspn", "bl", "barloffel",
         "cuillere de bar", "cuillere a melange", "cuil de bar", "cuchara de bar", "cucharada de bar",
         "cucharadita de bar", "cucchiaio da bar", "cucchiaino da bar", "barlepel", "bar lepel",
         "colher de bar"},
        {"barspoons", "bar spoons", "barspoonfuls", "barspoonsful", "bar spoonfuls", "bsps",
         "cuilleres de bar", "cuilleres a melange", "cucharas de bar", "cucharadas de bar",
         "cucharaditas de bar", "cucchiai da bar", "cucchiaini da bar", "barlepels"},
        true);
    addGuessed(t, W::Barspoon, {"bs"});
}

void addSmall(Table& t) {
    add(t, W::Dash,
        {"dash", "dsh", "spritzer", "trait", "golpe", "toque", "spruzzo", "spruzzata", "scheutje",
         "ダッシュ"},
        {"dashes", "dashs", "dshs", "spritzern", "traits", "golpes", "toques", "spruzzi", "spruzzate",
         "scheutjes"},
        true);
    addGuessed(t, W::Dash, {"ds"});
    add(t, W::Drop, {"drop", "gtt", "tropfen", "goutte", "gota", "goccia", "druppel", "滴", "капля"},
        {"drops", "gouttes", "gotas", "gocce", "druppels", "капли", "капель"}, true);
    add(t, W::Dropper, {"dropper", "dropperful", "pipette", "pipetteful"},
        {"droppers", "dropperfuls", "droppersful", "pipettes"}, true);
    add(t, W::Spray,
        {"spray", "spritz", "mist", "spruher", "spruhstoss", "vaporisation", "atomizer spray",
         "atomiser spray"},
        {"sprays", "spritzes", "mists", "vaporisations", "atomizer sprays", "atomiser sprays"}, true);
    add(t, W::Splash, {"splash", "schuss", "chorrito", "chorro", "spruzzatina", "filet"},
        {"splashes", "chorritos", "chorros"}, true);
    add(t, W::Pinch,
        {"pinch", "prise", "messerspitze", "msp", "pincee", "pizca", "pizzico", "snufje", "pitada",
         "ひとつまみ"},
        {"pinches", "prisen", "pincees", "pizcas", "pizzichi"}, true);
    add(t, W::Handful, {"handful", "handvoll", "hand voll", "poignee", "punado", "manciata", "handjevol"},
        {"handfuls", "handsful", "poignees", "punados", "manciate"}, true);
    add(t, W::Scoop, {"scoop", "scoopful", "kugel", "boule", "bola", "pallina"},
        {"scoops", "kugeln", "boules", "bolas", "palline"});
    add(t, W::Part, {"part", "teil", "parte", "deel", "partie"},
        {"parts", "teile", "teilen", "partes", "parti", "delen", "parties"});
    add(t, W::Shot, {"shot"}, {"shots"});
    add(t, W::Jigger, {"jigger", "jiggerful"}, {"jiggers", "jiggerfuls"});
    add(t, W::Pony, {"pony", "pony glass", "ponyglass"}, {"ponies", "ponys", "pony glasses"});
    add(t, W::Wineglass, {"wineglass", "wine glass", "wineglassful", "wine glassful"},
        {"wineglasses", "wine glasses", "wineglassfuls", "wineglassesful", "wine glassfuls"});
}

void addCounted(Table& t) {
    add(t, W::Piece, {"piece", "pc", "pce", "stuck", "stk", "st", "piece de", "pieza", "pezzo", "个", "個"},
        {"pieces", "pcs", "piezas", "pezzi"});
    add(t, W::Leaf, {"leaf", "blatt", "feuille", "hoja", "foglia", "blaadje", "folha"},
        {"leaves", "leafs", "blatter", "feuilles", "hojas", "foglie", "blaadjes", "folhas"});
    add(t, W::Slice,
        {"slice", "scheibe", "tranche", "rondelle", "rodaja", "rebanada", "fetta", "plakje", "fatia"},
        {"slices", "scheiben", "tranches", "rondelles", "rodajas", "rebanadas", "fette", "fettine", "plakjes",
         "fatias"},
        true);
    add(t, W::Wedge, {"wedge", "spalte", "quartier", "gajo", "spicchio", "partje"},
        {"wedges", "spalten", "quartiers", "gajos", "spicchi", "partjes"}, true);
    add(t, W::Sprig,
        {"sprig", "zweig", "stangel", "brin", "branche", "ramita", "ramito", "rametto", "takje", "raminho"},
        {"sprigs", "zweige", "brins", "branches", "ramitas", "ramitos", "rametti", "takjes", "raminhos"},
        true);
    add(t, W::Cube, {"cube", "lump", "wurfel", "morceau", "terron", "zolletta", "cubetto", "blokje", "cubo"},
        {"cubes", "lumps", "morceaux", "terrones", "zollette", "cubetti", "blokjes", "cubos"});
    add(t, W::Sheet, {"sheet"}, {"sheets"});
    add(t, W::Bottle, {"bottle", "btl", "flasche", "bouteille", "botella", "bottiglia", "fles", "garrafa"},
        {"bottles", "btls", "flaschen", "bouteilles", "botellas", "bottiglie", "flessen", "garrafas"});
    add(t, W::Can, {"can", "tin", "dose", "canette", "boite", "lata", "lattina", "blikje"},
        {"cans", "tins", "dosen", "canettes", "boites", "latas", "lattine", "blikjes"});
    add(t, W::Unsized, {"glass",   "glassful",      "tumbler",       "tumblerful",   "squeeze",     "glug",
                        "drizzle", "touch",         "hint",          "dollop",       "measure",     "finger",
                        "ladle",   "sachet",        "packet",        "pack",         "jar",         "tub",
                        "carton",  "pot",           "spoon",         "spoonful",     "nip",         "dram",
                        "drachm",  "minim",         "saltspoon",     "saltspoonful", "glas",        "verre",
                        "vaso",    "copa",          "bicchiere",     "becher",       "ladleful",    "bowl",
                        "pitcher", "jug",           "mug",           "shake",        "grind",       "grating",
                        "noggin",  "liqueur glass", "cordial glass", "sherry glass", "claret glass"},
        {"glasses",
         "glassfuls",
         "tumblers",
         "squeezes",
         "glugs",
         "drizzles",
         "measures",
         "fingers",
         "ladles",
         "sachets",
         "packets",
         "packs",
         "jars",
         "tubs",
         "cartons",
         "pots",
         "spoons",
         "spoonfuls",
         "nips",
         "drams",
         "drachms",
         "minims",
         "saltspoons",
         "saltspoonfuls",
         "glaser",
         "verres",
         "vasos",
         "copas",
         "bicchieri",
         "shakes",
         "grinds",
         "gratings",
         "noggins",
         "liqueur glasses",
         "cordial glasses",
         "sherry glasses"});
}

const Table& table() {
    static const Table made = [] {
        Table t;
        addMetric(t);
        addOunces(t);
        addSpoons(t);
        addSmall(t);
        addCounted(t);
        return t;
    }();
    return made;
}

UnitSystem systemWord(std::string_view key) {
    if (key == "us" || key == "u s" || key == "american" || key == "usa") return UnitSystem::Us;
    if (key == "imperial" || key == "imp" || key == "uk" || key == "u k" || key == "british" ||
        key == "english" || key == "gb")
        return UnitSystem::Imperial;
    if (key == "metric") return UnitSystem::Metric;
    return UnitSystem::Unsaid;
}

// The token after a measure word, a tight full stop included ("oz.").
std::size_t afterStop(const TokenLine& line, std::size_t i) {
    const bool stop = line.at(i).isMark(".") && line.at(i).isTight();
    return stop ? i + 1 : i;
}

// Joins words at `at` one by one ("fl. oz.", "bar-spoon", "c. à s.") and calls try_(key, next) after each.
template <class Try>
void growKey(const TokenLine& line, std::size_t at, std::size_t maxWords, Try try_) {
    std::string key;
    std::size_t i = at;
    for (std::size_t words = 0; words < maxWords; ++words) {
        const Token& t = line.at(i);
        if (t.kind != TokenKind::Word) return;
        if (!key.empty()) key.push_back(' ');
        key += t.folded;
        try_(key, i + 1);
        i = afterStop(line, i + 1);
        if (line.at(i).isMark("-") && line.at(i).isTight() && line.at(i + 1).isTight()) ++i;
        if (line.at(i).isMark("'") && line.at(i).isTight()) ++i;
    }
}

std::optional<UnitRead> plainUnit(const TokenLine& line, std::size_t at) {
    std::optional<UnitRead> best;
    growKey(line, at, 4, [&](const std::string& key, std::size_t next) {
        const auto found = table().find(key);
        if (found == table().end()) return;
        UnitRead unit;
        unit.word = found->second.word;
        unit.standsAlone = found->second.standsAlone;
        unit.guessed = found->second.guessed;
        unit.plural = found->second.plural;
        unit.next = afterStop(line, next);
        best = unit;
    });
    if (!best) return best;
    // T is a tablespoon, t a teaspoon, whoever writes one letter
    if (line.raw(at) == "T") best->word = W::Tbsp;
    return best;
}

// "1 fl. oz. (UK)", "1 pint (imp.)"
void takeSystemInBrackets(const TokenLine& line, UnitRead& unit) {
    if (!line.at(unit.next).isMark("(")) return;
    growKey(line, unit.next + 1, 2, [&](const std::string& key, std::size_t next) {
        const UnitSystem system = systemWord(key);
        const std::size_t end = afterStop(line, next);
        if (system == UnitSystem::Unsaid || !line.at(end).isMark(")")) return;
        unit.system = system;
        unit.next = end + 1;
    });
}

} // namespace

std::optional<UnitRead> readUnit(const TokenLine& line, std::size_t at) {
    std::optional<UnitRead> best = plainUnit(line, at);
    growKey(line, at, 2, [&](const std::string& key, std::size_t next) {
        const UnitSystem system = systemWord(key);
        if (system == UnitSystem::Unsaid) return;
        auto unit = plainUnit(line, afterStop(line, next));
        if (!unit) return;
        unit->system = system;
        best = unit;
    });
    if (best && best->system == UnitSystem::Unsaid) takeSystemInBrackets(line, *best);
    return best;
}

std::optional<UnitRead> readTrailingUnit(const TokenLine& line, std::size_t at) {
    const Token& t = line.at(at);
    if (t.kind != TokenKind::Word) return std::nullopt;
    const auto found = table().find(t.folded);
    if (found == table().end()) return std::nullopt;
    switch (found->second.word) {
    case W::Leaf:
    case W::Sprig:
    case W::Slice:
    case W::Wedge:
    case W::Cube:
    case W::Sheet:
    case W::Dash:
    case W::Drop:
    case W::Spray:
    case W::Splash:
    case W::Pinch:
    case W::Scoop:
    case W::Bottle:
    case W::Can: {
        UnitRead unit;
        unit.word = found->second.word;
        unit.next = at + 1;
        unit.plural = found->second.plural;
        return unit;
    }
    default:
        return std::nullopt;
    }
}

} // namespace stillroom::exchange
