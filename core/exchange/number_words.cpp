#include "core/exchange/number_words.h"

#include <unordered_map>

namespace stillroom::exchange {

namespace {

using Kind = NumberWordKind;
using Table = std::unordered_map<std::string_view, NumberWord>;

void addCardinals(Table& t) {
    const auto add = [&t](std::int64_t value, std::initializer_list<std::string_view> words) {
        for (const std::string_view word : words)
            t.emplace(word, NumberWord{Kind::Cardinal, value});
    };
    add(1, {"one"});
    add(2, {"two", "zwei", "zwo", "deux", "dos", "due", "twee", "dois", "duas"});
    add(3, {"three", "drei", "trois", "tres", "tre", "drie"});
    add(4, {"four", "vier", "quatre", "cuatro", "quattro", "quatro"});
    add(5, {"five", "funf", "fuenf", "cinq", "cinco", "cinque", "vijf"});
    add(6, {"six", "sechs", "seis", "sei", "zes"});
    add(7, {"seven", "sieben", "sept", "siete", "sette"});
    add(8, {"eight", "acht", "huit", "ocho", "otto"});
    add(9, {"nine", "neun", "neuf", "nueve", "nove"});
    add(10, {"ten", "zehn", "dix", "diez", "dieci", "tien"});
    add(11, {"eleven", "elf"});
    add(12, {"twelve", "zwolf", "zwoelf", "douze", "doce", "dodici"});
    add(13, {"thirteen"});
    add(14, {"fourteen"});
    add(15, {"fifteen", "funfzehn", "quinze", "quince", "quindici"});
    add(16, {"sixteen"});
    add(17, {"seventeen"});
    add(18, {"eighteen"});
    add(19, {"nineteen"});
    add(20, {"twenty", "zwanzig", "vingt", "veinte", "venti"});
    add(30, {"thirty", "dreissig", "trente", "treinta", "trenta"});
    add(40, {"forty", "vierzig", "quarante", "cuarenta", "quaranta"});
    add(50, {"fifty", "funfzig", "cinquante", "cincuenta", "cinquanta"});
    add(60, {"sixty"});
    add(100, {"hundred", "hundert", "cent", "cien", "cento"});
}

Table makeTable() {
    Table t;
    const auto add = [&t](Kind kind, std::int64_t value, std::initializer_list<std::string_view> words) {
        for (const std::string_view word : words)
            t.emplace(word, NumberWord{kind, value});
    };
    addCardinals(t);
    add(Kind::Article, 1,
        {"a", "an", "ein", "eine", "einen", "einem", "einer", "eines", "un", "une", "una", "uno", "een", "um",
         "uma"});
    add(Kind::Fraction, 2,
        {"half", "halves", "halb", "halbe", "halber", "halbes", "halben", "demi", "demie", "medio", "media",
         "mezzo", "mezza", "halve", "meio", "meia"});
    add(Kind::Fraction, 3, {"third", "thirds", "drittel", "tiers", "tercio", "tercios", "terzo", "terzi"});
    add(Kind::Fraction, 4,
        {"quarter", "quarters", "viertel", "quart", "quarts", "cuarto", "cuartos", "quarto", "quarti"});
    add(Kind::Fraction, 5, {"fifth", "fifths"});
    add(Kind::Fraction, 8, {"eighth", "eighths", "achtel"});
    add(Kind::Mixed, 1, {"anderthalb", "eineinhalb"});
    add(Kind::Mixed, 2, {"zweieinhalb"});
    add(Kind::Mixed, 3, {"dreieinhalb"});
    add(Kind::Dozen, 12, {"dozen", "dozens", "dutzend", "douzaine", "docena", "dozzina"});
    add(Kind::Couple, 2, {"couple", "pair", "par", "paio"});
    add(Kind::Vague, 0,
        {"few", "paar", "several", "some", "many", "einige", "etwas", "wenige", "mehrere", "quelques",
         "plusieurs", "unas", "unos", "algunas", "algunos", "varias", "alcune", "alcuni", "qualche"});
    add(Kind::And, 0, {"and", "und", "et", "y", "e"});
    return t;
}

} // namespace

NumberWord numberWord(std::string_view folded) {
    static const Table table = makeTable();
    const auto found = table.find(folded);
    return found == table.end() ? NumberWord{} : found->second;
}

} // namespace stillroom::exchange
