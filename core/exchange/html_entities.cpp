#include "core/exchange/html_text.h"

#include "core/base/code_points.h"

#include <unordered_map>

namespace stillroom::exchange {

namespace {

// The names that recipes use; an unknown one stays as written.
const std::unordered_map<std::string_view, char32_t>& names() {
    static const std::unordered_map<std::string_view, char32_t> made = {
        {"amp", '&'},       {"lt", '<'},        {"gt", '>'},        {"quot", '"'},      {"apos", '\''},
        {"nbsp", 0xA0},     {"frac12", 0xBD},   {"half", 0xBD},     {"frac14", 0xBC},   {"frac34", 0xBE},
        {"frac13", 0x2153}, {"frac23", 0x2154}, {"frac15", 0x2155}, {"frac16", 0x2159}, {"frac18", 0x215B},
        {"frac38", 0x215C}, {"frac58", 0x215D}, {"frac78", 0x215E}, {"frasl", 0x2044},  {"times", 0xD7},
        {"deg", 0xB0},      {"ndash", 0x2013},  {"mdash", 0x2014},  {"minus", 0x2212},  {"hellip", 0x2026},
        {"lsquo", 0x2018},  {"rsquo", 0x2019},  {"ldquo", 0x201C},  {"rdquo", 0x201D},  {"laquo", 0xAB},
        {"raquo", 0xBB},    {"bull", 0x2022},   {"middot", 0xB7},   {"thinsp", 0x2009}, {"ensp", 0x2002},
        {"emsp", 0x2003},   {"shy", 0xAD},      {"zwj", 0x200D},    {"zwnj", 0x200C},   {"agrave", 0xE0},
        {"aacute", 0xE1},   {"acirc", 0xE2},    {"atilde", 0xE3},   {"auml", 0xE4},     {"aring", 0xE5},
        {"aelig", 0xE6},    {"ccedil", 0xE7},   {"egrave", 0xE8},   {"eacute", 0xE9},   {"ecirc", 0xEA},
        {"euml", 0xEB},     {"igrave", 0xEC},   {"iacute", 0xED},   {"icirc", 0xEE},    {"iuml", 0xEF},
        {"ntilde", 0xF1},   {"ograve", 0xF2},   {"oacute", 0xF3},   {"ocirc", 0xF4},    {"otilde", 0xF5},
        {"ouml", 0xF6},     {"oslash", 0xF8},   {"ugrave", 0xF9},   {"uacute", 0xFA},   {"ucirc", 0xFB},
        {"uuml", 0xFC},     {"szlig", 0xDF},    {"oelig", 0x153},   {"Agrave", 0xC0},   {"Aacute", 0xC1},
        {"Auml", 0xC4},     {"Ccedil", 0xC7},   {"Egrave", 0xC8},   {"Eacute", 0xC9},   {"Ntilde", 0xD1},
        {"Ouml", 0xD6},     {"Uuml", 0xDC},     {"euro", 0x20AC},   {"pound", 0xA3},    {"copy", 0xA9},
        {"reg", 0xAE},      {"trade", 0x2122},  {"iexcl", 0xA1},    {"iquest", 0xBF},   {"sup2", 0xB2},
        {"ordm", 0xBA},     {"ordf", 0xAA},     {"rarr", 0x2192},   {"plusmn", 0xB1},   {"asymp", 0x2248}};
    return made;
}

// The character of "#189" or "#xBD"; 0 when it is none.
char32_t numbered(std::string_view body) {
    const bool hex = body.size() > 1 && (body[1] == 'x' || body[1] == 'X');
    const std::string_view digits = body.substr(hex ? 2 : 1);
    if (digits.empty() || digits.size() > 8) return 0;
    char32_t value = 0;
    for (const char c : digits) {
        int digit = -1;
        if (c >= '0' && c <= '9') digit = c - '0';
        if (hex && c >= 'a' && c <= 'f') digit = c - 'a' + 10;
        if (hex && c >= 'A' && c <= 'F') digit = c - 'A' + 10;
        if (digit < 0) return 0;
        value = value * (hex ? 16 : 10) + static_cast<char32_t>(digit);
        if (value > 0x10FFFF) return 0;
    }
    return value >= 0xD800 && value < 0xE000 ? 0 : value;
}

} // namespace

std::string withoutEntities(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        const std::size_t end = text[i] == '&' ? text.find(';', i) : std::string_view::npos;
        if (end == std::string_view::npos || end - i > 12 || end == i + 1) {
            out.push_back(text[i]);
            continue;
        }
        const std::string_view body = text.substr(i + 1, end - i - 1);
        char32_t c = 0;
        if (body[0] == '#')
            c = numbered(body);
        else if (const auto found = names().find(body); found != names().end())
            c = found->second;
        if (c == 0) {
            out.push_back('&');
            continue;
        }
        base::appendCodePoint(out, c);
        i = end;
    }
    return out;
}

} // namespace stillroom::exchange
