#include "core/exchange/name_words.h"

#include "core/exchange/clean_text.h"

#include <array>
#include <unordered_map>

namespace stillroom::exchange {

namespace {

// One word's meaning as the head of a name.
struct Entry {
    NameForm form = NameForm::Unknown;
    bool pourable = false;
    bool citrus = false;
    bool fruit = false;
    bool herb = false;
    bool strong = false;
    bool bitters = false;
    bool describer = false;
};
using Table = std::unordered_map<std::string_view, Entry>;
using Words = std::initializer_list<std::string_view>;

void add(Table& t, const Entry& entry, Words words) {
    for (const std::string_view w : words)
        t.insert_or_assign(w, entry);
}

void addLiquids(Table& t) {
    Entry strong;
    strong.form = NameForm::Liquid;
    strong.strong = true;
    add(t, strong, {"gin",        "gins",    "genever",  "jenever",  "vodka",        "wodka",     "rum",
                    "rums",       "rhum",    "ron",      "cachaca",  "whisky",       "whiskey",   "whiskies",
                    "bourbon",    "rye",     "scotch",   "brandy",   "cognac",       "armagnac",  "calvados",
                    "applejack",  "pisco",   "tequila",  "tequilas", "mezcal",       "sotol",     "raicilla",
                    "absinthe",   "absinth", "pastis",   "ouzo",     "arak",         "arrack",    "aquavit",
                    "akvavit",    "grappa",  "marc",     "kirsch",   "kirschwasser", "schnapps",  "schnaps",
                    "eau-de-vie", "soju",    "shochu",   "baijiu",   "spirit",       "spirits",   "moonshine",
                    "slivovitz",  "obstler", "korn",     "ginebra",  "aguardiente",  "weinbrand", "everclear",
                    "alcohol",    "blanco",  "reposado", "anejo",    "vie"});
    Entry bitters;
    bitters.form = NameForm::Liquid;
    bitters.bitters = true;
    add(t, bitters, {"bitters", "orangenbitter", "amers", "amargo", "amargos"});
    Entry liquid;
    liquid.form = NameForm::Liquid;
    add(t, liquid,
        {"juice",      "juices",     "syrup",       "syrups",     "sirup",        "sirop",        "sciroppo",
         "jarabe",     "almibar",    "cordial",     "cordials",   "shrub",        "oleo",         "saccharum",
         "orgeat",     "falernum",   "grenadine",   "granatina",  "gomme",        "nectar",       "liqueur",
         "liqueurs",   "liquor",     "likor",       "licor",      "liquore",      "curacao",      "sec",
         "dram",       "creme",      "amaro",       "amari",      "aperitif",     "aperitivo",    "digestif",
         "maraschino", "amaretto",   "limoncello",  "sambuca",    "anisette",     "kummel",       "pimento",
         "advocaat",   "eggnog",     "bitter",      "vermouth",   "vermouths",    "vermut",       "wermut",
         "quinquina",  "wine",       "wines",       "wein",       "vin",          "vino",         "champagne",
         "champagner", "prosecco",   "cava",        "cremant",    "sekt",         "spumante",     "sherry",
         "fino",       "manzanilla", "amontillado", "oloroso",    "port",         "porto",        "madeira",
         "marsala",    "sake",       "claret",      "burgundy",   "rose",         "cider",        "cidre",
         "sidra",      "perry",      "beer",        "beers",      "bier",         "biere",        "cerveza",
         "birra",      "lager",      "stout",       "porter",     "ale",          "pilsner",      "mead",
         "water",      "waters",     "wasser",      "eau",        "agua",         "acqua",        "soda",
         "sodas",      "sodawasser", "tonic",       "cola",       "coke",         "lemonade",     "limonade",
         "seltzer",    "ginger-ale", "sprudel",     "tea",        "tee",          "the",          "te",
         "coffee",     "kaffee",     "cafe",        "caffe",      "brew",         "milk",         "milch",
         "lait",       "leche",      "latte",       "buttermilk", "cream",        "sahne",        "rahm",
         "panna",      "nata",       "half",        "kefir",      "whey",         "vinegar",      "essig",
         "vinaigre",   "vinagre",    "aceto",       "oil",        "ol",           "huile",        "aceite",
         "olio",       "brine",      "saline",      "solution",   "extract",      "essence",      "tincture",
         "sauce",      "broth",      "stock",       "aquafaba",   "foamer",       "verjus",       "kombucha",
         "kvass",      "saft",       "jus",         "zumo",       "jugo",         "succo",        "sumo",
         "suco",       "agave",      "must",        "clamato",    "infusion",     "distillate",   "base",
         "mix",        "lime-juice", "blossom",     "rosewater",  "limettensaft", "zitronensaft", "bouillon",
         "lowland",    "float",      "liquid",      "perfume",    "hydrosol",     "squash"});
}

void addThick(Table& t) {
    Entry thick;
    thick.form = NameForm::Thick;
    add(t, thick,
        {"honey",      "honig",     "miel",      "miele",       "molasses",  "treacle",   "melasse",
         "jam",        "jams",      "jelly",     "preserve",    "preserves", "marmalade", "marmelade",
         "konfiture",  "confiture", "mermelada", "marmellata",  "puree",     "purees",    "puree",
         "pure",       "pulp",      "yogurt",    "yoghurt",     "joghurt",   "yaourt",    "sherbet",
         "sorbet",     "gelato",    "paste",     "curd",        "butter",    "caramel",   "tahini",
         "mayonnaise", "ketchup",   "icecream",  "concentrate", "condensed"});
}

void addSolids(Table& t) {
    Entry solid;
    solid.form = NameForm::Solid;
    add(t, solid,
        {"sugar",      "sugars",     "zucker",       "sucre",     "azucar",    "zucchero", "suiker",
         "acucar",     "salt",       "salz",         "sel",       "sal",       "sale",     "acid",
         "acids",      "saure",      "powder",       "pulver",    "flour",     "cocoa",    "kakao",
         "cacao",      "chocolate",  "schokolade",   "chocolat",  "cinnamon",  "zimt",     "muskat",
         "muscade",    "cardamom",   "allspice",     "mace",      "saffron",   "turmeric", "pepper",
         "pfeffer",    "poivre",     "ginger",       "ingwer",    "gingembre", "jengibre", "zenzero",
         "galangal",   "lemongrass", "gelatin",      "gelatine",  "agar",      "pectin",   "gum",
         "xanthan",    "lecithin",   "maltodextrin", "ice",       "eis",       "glace",    "hielo",
         "ghiaccio",   "almonds",    "nuts",         "hazelnuts", "walnuts",   "pecans",   "pistachios",
         "peanuts",    "coconut",    "oats",         "rice",      "corn",      "barley",   "hibiscus",
         "flowers",    "petals",     "seeds",        "seed",      "zest",      "zests",    "peels",
         "rinds",      "rind",       "bacon",        "cheese",    "hops",      "wormwood", "gentian",
         "root",       "bark",       "leaves",       "herbs",     "celery",    "rhubarb",  "fennel",
         "beetroot",   "carrot",     "carrots",      "cane",      "muscovado", "demerara", "turbinado",
         "jaggery",    "piloncillo", "dextrose",     "fructose",  "glucose",   "lactose",  "isomalt",
         "erythritol", "spices",     "tealeaves",    "grounds",   "beans",     "crumbs",   "nibs",
         "chips",      "raisins",    "sultanas",     "vanilla",   "tamarind",  "chili",    "chilli",
         "paprika",    "cayenne",    "cumin",        "coriander", "anise",     "licorice"});
    Entry herb = solid;
    herb.herb = true;
    add(t, herb, {"mint",    "minze",    "menthe",   "menta",     "hierbabuena", "basil",    "basilikum",
                  "basilic", "albahaca", "basilico", "rosemary",  "rosmarin",    "thyme",    "thymian",
                  "sage",    "dill",     "parsley",  "cilantro",  "tarragon",    "lavender", "verbena",
                  "shiso",   "lovage",   "chervil",  "spearmint", "peppermint"});
}

void addCountables(Table& t) {
    Entry thing;
    thing.form = NameForm::Countable;
    add(t, thing,
        {"clove",        "cloves",         "pod",        "pods",        "stick",    "sticks",   "bean",
         "star",         "stars",          "nutmeg",     "bunches",     "knob",     "knobs",    "thumb",
         "handle",       "slivers",        "sliver",     "curl",        "spiral",   "nutmegs",  "olive",
         "olives",       "onion",          "onions",     "peel",        "twist",    "twists",   "wheel",
         "wheels",       "strip",          "strips",     "coin",        "coins",    "chunk",    "chunks",
         "ring",         "rings",          "round",      "rounds",      "piece",    "pieces",   "bunch",
         "head",         "stalk",          "stalks",     "rib",         "ribs",     "bag",      "bags",
         "teabag",       "teabags",        "peppercorn", "peppercorns", "berry",    "chillies", "chilies",
         "chiles",       "chile",          "jalapeno",   "jalapenos",   "biscuit",  "biscuits", "marshmallow",
         "marshmallows", "cookie",         "cookies",    "date",        "dates",    "cucumber", "cucumbers",
         "gurke",        "tomato",         "tomatoes",   "radish",      "gherkin",  "pickle",   "caper",
         "walnut",       "almond",         "hazelnut",   "flower",      "blossoms", "shell",    "shells",
         "quarter",      "quarters",       "halves",     "segment",     "segments", "zeste",    "zestes",
         "scheibchen",   "nelken",         "nelke",      "clavos",      "chiodi",   "ramas",    "stecca",
         "zimtstange",   "zimtstangen",    "bande",      "ball",        "balls",    "stone",    "stones",
         "juniper",      "juniperberries", "oyster",     "oysters",     "plant",    "pinecone", "spear",
         "spears"});
    Entry fruit = thing;
    fruit.fruit = true;
    add(t, fruit,
        {"apple",        "apples",       "apfel",      "pomme",        "pommes",        "manzana",
         "mela",         "mele",         "pear",       "pears",        "birne",         "peach",
         "peaches",      "pfirsich",     "pfirsiche",  "apricot",      "apricots",      "plum",
         "plums",        "cherry",       "cherries",   "kirsche",      "kirschen",      "cocktailkirsche",
         "strawberry",   "strawberries", "erdbeere",   "erdbeeren",    "fraise",        "fraises",
         "fresa",        "fresas",       "fragola",    "fragole",      "raspberry",     "raspberries",
         "himbeere",     "himbeeren",    "framboise",  "framboises",   "frambuesas",    "lamponi",
         "blackberry",   "blackberries", "brombeeren", "mures",        "blueberry",     "blueberries",
         "cranberry",    "cranberries",  "currants",   "grape",        "grapes",        "fig",
         "figs",         "melon",        "melons",     "watermelon",   "pineapple",     "pineapples",
         "ananas",       "mango",        "mangoes",    "mangos",       "papaya",        "banana",
         "bananas",      "kiwi",         "kiwis",      "passionfruit", "passionfruits", "pomegranate",
         "pomegranates", "lychee",       "lychees",    "quince",       "quinces",       "fruit",
         "fruits",       "berries"});
    Entry citrus = fruit;
    citrus.citrus = true;
    add(t, citrus,
        {"lime",         "limes",    "lemon",     "lemons",     "orange",     "oranges",    "grapefruit",
         "grapefruits",  "mandarin", "mandarins", "tangerine",  "tangerines", "clementine", "clementines",
         "yuzu",         "kumquat",  "kumquats",  "pomelo",     "calamansi",  "bergamot",   "zitrone",
         "zitronen",     "limette",  "limetten",  "orangen",    "citron",     "citrons",    "vert",
         "verts",        "limon",    "limones",   "lima",       "limas",      "naranja",    "naranjas",
         "limone",       "limoni",   "arancia",   "arance",     "pompelmo",   "toronja",    "pomelos",
         "pamplemousse", "citroen",  "limoen",    "sinaasappel"});
    Entry poured = thing;
    poured.pourable = true;
    add(t, poured,
        {"egg",      "eggs",      "white",    "whites",    "yolk",    "yolks",  "ei",    "eier",
         "eiweiss",  "eigelb",    "oeuf",     "oeufs",     "blanc",   "blancs", "jaune", "jaunes",
         "huevo",    "huevos",    "clara",    "claras",    "yema",    "yemas",  "uovo",  "uova",
         "albume",   "albumi",    "tuorlo",   "tuorli",    "ovo",     "ovos",   "eiwit", "eiwitten",
         "espresso", "espressos", "espressi", "ristretto", "expresso"});
}

void addDescribers(Table& t) {
    Entry describer;
    describer.describer = true;
    add(t, describer,
        {"fresh",   "freshly", "ripe",      "large",  "small",    "medium",   "big",         "cold",
         "chilled", "hot",     "warm",      "dry",    "sweet",    "red",      "green",       "black",
         "dark",    "light",   "golden",    "aged",   "raw",      "whole",    "good",        "thick",
         "thin",    "strong",  "clear",     "cloudy", "unsalted", "salted",   "unsweetened", "organic",
         "best",    "quality", "overripe",  "firm",   "soft",     "young",    "old",         "spiced",
         "smoky",   "bitter",  "sour",      "pink",   "yellow",   "heavy",    "double",      "single",
         "fine",    "coarse",  "superfine", "frozen", "dried",    "homemade", "very"});
}

const Table& table() {
    static const Table made = [] {
        Table t;
        addDescribers(t);
        addLiquids(t);
        addThick(t);
        addSolids(t);
        addCountables(t);
        return t;
    }();
    return made;
}

const Entry* find(std::string_view folded) {
    const auto found = table().find(folded);
    return found == table().end() ? nullptr : &found->second;
}

bool endsIn(std::string_view word, std::string_view end) {
    return word.size() > end.size() && word.substr(word.size() - end.size()) == end;
}

// German joins words: the last part decides.
const Entry* findCompound(std::string_view folded) {
    constexpr std::array<std::string_view, 30> kEnds{
        "saft",    "sirup",  "likor",   "wasser",  "wein",     "schnaps", "brand",  "essig",
        "milch",   "sahne",  "bier",    "bitter",  "zucker",   "salz",    "pulver", "saure",
        "schale",  "eis",    "sekt",    "kirsche", "kirschen", "beeren",  "nusse",  "minze",
        "zitrone", "orange", "limette", "whisky",  "limonade", "blatter"};
    for (const std::string_view end : kEnds) {
        if (!endsIn(folded, end)) continue;
        if (end == "brand") return find("brandy");
        if (end == "beeren") return find("berries");
        if (end == "nusse") return find("nuts");
        if (end == "schale") return find("peel");
        if (end == "blatter") return find("leaves");
        return find(end);
    }
    return nullptr;
}

bool looksPlural(std::string_view word) {
    if (word.size() < 4 || word.back() != 's') return false;
    const char before = word[word.size() - 2];
    return before != 's' && before != 'u' && before != 'i';
}

bool isLink(const Token& t) {
    return t.kind == TokenKind::Word &&
           (t.folded == "of" || t.folded == "de" || t.folded == "di" || t.folded == "d" || t.folded == "du" ||
            t.folded == "del" || t.folded == "von" || t.folded == "in" || t.folded == "with" ||
            t.folded == "a");
}

struct Head {
    const Entry* entry = nullptr;
    std::size_t at = 0;
};

// The last known noun of [first, last).
Head headOf(const TokenLine& line, std::size_t first, std::size_t last) {
    for (std::size_t i = last; i > first; --i) {
        const Token& t = line.at(i - 1);
        if (t.kind != TokenKind::Word) continue;
        const Entry* entry = find(t.folded);
        if (entry == nullptr) entry = findCompound(t.folded);
        if (entry != nullptr && entry->form != NameForm::Unknown) return {entry, i - 1};
    }
    return {};
}

} // namespace

NameSense senseOf(const TokenLine& line, std::size_t first, std::size_t last) {
    NameSense sense;
    std::size_t end = first; // up to a bracket, comma or "or"
    while (end < last && !line.at(end).isMark("(") && !line.at(end).isMark(","))
        ++end;
    if (end == first) end = last;
    // "egg white or aquafaba" is what it names first, "lemon or lime juice" what it names last
    std::size_t choice = first;
    while (choice < end && !line.at(choice).isWord("or"))
        ++choice;
    if (choice > first && choice < end) {
        const Head head = headOf(line, first, choice);
        if (head.entry != nullptr && !head.entry->fruit) end = choice;
    }
    std::size_t link = first;
    while (link < end && !isLink(line.at(link)))
        ++link;
    Head head = headOf(line, first, link);
    if (head.entry == nullptr && link < end) head = headOf(line, link, end);
    for (std::size_t i = end; i > first; --i) {
        if (line.at(i - 1).kind != TokenKind::Word) continue;
        sense.plural = looksPlural(line.at(i - 1).folded);
        break;
    }
    for (std::size_t i = first; i < end; ++i) {
        const Entry* entry = line.at(i).kind == TokenKind::Word ? find(line.at(i).folded) : nullptr;
        sense.bitters |= entry != nullptr && entry->bitters;
    }
    if (head.entry == nullptr) return sense;
    // "2 sticks cinnamon", "1 bunch mint": what is counted stands first
    if (head.entry->form == NameForm::Solid && line.at(first).kind == TokenKind::Word) {
        const Entry* lead = find(line.at(first).folded);
        if (lead != nullptr && lead->form == NameForm::Countable && !lead->fruit && !lead->pourable)
            head.entry = lead;
    }
    sense.form = head.entry->form;
    sense.herb = head.entry->herb;
    sense.strong = head.entry->strong;
    sense.pourable = head.entry->pourable;
    sense.citrus = head.entry->citrus;
    if (line.at(head.at).isWord("juice") && head.at > first && line.at(head.at - 1).kind == TokenKind::Word)
        sense.fruitJuice = isFruit(line.at(head.at - 1).folded);
    return sense;
}

NameSense senseOf(std::string_view name) {
    const TokenLine line(cleanLine(name).text);
    return senseOf(line, 0, line.size());
}

NameForm formInLarder(std::string_view name, const larder::Larder& larder) {
    const larder::NameMatch match = larder.match(name);
    if (match.quality != larder::MatchQuality::Exact && match.quality != larder::MatchQuality::Remembered)
        return NameForm::Unknown;
    const larder::Ingredient* known = larder.find(match.ingredient);
    if (known == nullptr) return NameForm::Unknown;
    if (known->facts.dry) return NameForm::Solid;
    return known->facts.abvPercent && known->facts.abvPercent->typical > 0 ? NameForm::Liquid
                                                                           : NameForm::Unknown;
}

bool isFruit(std::string_view folded) {
    const Entry* entry = find(folded);
    return entry != nullptr && entry->fruit;
}

bool isDescriber(std::string_view folded) {
    const Entry* entry = find(folded);
    return entry != nullptr && (entry->describer || folded == "white" || folded == "blanc");
}

} // namespace stillroom::exchange
