#include "core/exchange/html_text.h"

#include "core/base/text.h"

#include <algorithm>
#include <array>
#include <set>

namespace stillroom::exchange {

namespace {

std::string lowered(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
    return out;
}

template <std::size_t N>
bool among(const std::array<std::string_view, N>& list, std::string_view name) {
    return std::find(list.begin(), list.end(), name) != list.end();
}

constexpr std::array<std::string_view, 10> kRawText{"script", "style", "noscript", "iframe", "template",
                                                    "object", "svg",   "math",     "select", "textarea"};
constexpr std::array<std::string_view, 14> kVoid{"br",   "img", "hr",    "input", "meta",   "link",  "area",
                                                 "base", "col", "embed", "param", "source", "track", "wbr"};
constexpr std::array<std::string_view, 34> kBlocks{
    "p",      "div",   "ul",   "ol",    "li",         "h1",      "h2",        "h3",     "h4",
    "h5",     "h6",    "tr",   "table", "body",       "section", "article",   "header", "main",
    "footer", "nav",   "dl",   "dt",    "dd",         "br",      "hr",        "title",  "head",
    "html",   "aside", "form", "tbody", "blockquote", "pre",     "figcaption"};
// An opening tag of these closes an open one of the same kind.
constexpr std::array<std::string_view, 6> kSelfClosing{"p", "li", "dt", "dd", "tr", "option"};

struct Tag {
    std::string name;
    bool closing = false;
    bool selfClosed = false;
    std::vector<std::pair<std::string, std::string>> attributes;
    std::string value(std::string_view key) const {
        for (const auto& [name_, value_] : attributes)
            if (name_ == key) return value_;
        return {};
    }
    bool has(std::string_view key) const {
        return std::any_of(attributes.begin(), attributes.end(),
                           [&](const auto& a) { return a.first == key; });
    }
};

bool isNameChar(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == ':';
}
bool isBlank(char c) {
    return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f';
}

// Selectors of plain rules that hide: ".x", "#y", "div".
std::set<std::string> hidingSelectors(std::string_view css) {
    std::set<std::string> out;
    std::size_t at = 0;
    while (at < css.size()) {
        const std::size_t open = css.find('{', at);
        if (open == std::string_view::npos) break;
        const std::size_t close = std::min(css.find('}', open), css.size());
        std::string body = lowered(css.substr(open + 1, close - open - 1));
        body.erase(std::remove_if(body.begin(), body.end(), isBlank), body.end());
        if (body.find("display:none") != std::string::npos ||
            body.find("visibility:hidden") != std::string::npos) {
            std::string_view selectors = css.substr(at, open - at);
            while (!selectors.empty()) {
                const std::size_t comma = std::min(selectors.find(','), selectors.size());
                out.insert(lowered(base::trimmed(selectors.substr(0, comma))));
                selectors.remove_prefix(std::min(comma + 1, selectors.size()));
            }
        }
        at = close + 1;
    }
    return out;
}

class Page {
  public:
    explicit Page(std::string_view html) : m_html(html) {}

    HtmlPage read() {
        collectStyles();
        while (m_at < m_html.size()) {
            if (m_html[m_at] == '<')
                readMarkup();
            else
                readWords();
        }
        endLine();
        return std::move(m_page);
    }

  private:
    struct Open {
        std::string name;
        bool hidden = false;
    };

    void collectStyles() {
        const std::string low = lowered(m_html);
        for (std::size_t at = low.find("<style"); at != std::string::npos; at = low.find("<style", at + 6)) {
            const std::size_t begin = low.find('>', at);
            if (begin == std::string::npos) return;
            const std::size_t end = std::min(low.find("</style", begin), low.size());
            m_hiding.merge(hidingSelectors(std::string_view(low).substr(begin + 1, end - begin - 1)));
        }
    }

    void readWords() {
        const std::size_t end = std::min(m_html.find('<', m_at), m_html.size());
        if (!hidden()) m_text += m_html.substr(m_at, end - m_at);
        m_at = end;
    }

    bool hidden() const { return !m_open.empty() && m_open.back().hidden; }

    void readMarkup() {
        if (m_html.substr(m_at, 4) == "<!--") {
            const std::size_t end = m_html.find("-->", m_at + 4);
            m_at = end == std::string_view::npos ? m_html.size() : end + 3;
            return;
        }
        const char next = m_at + 1 < m_html.size() ? m_html[m_at + 1] : ' ';
        if (next == '!' || next == '?') {
            m_at = std::min(m_html.find('>', m_at), m_html.size() - 1) + 1;
            return;
        }
        if (next != '/' && !isNameChar(next)) { // a lone "<"
            if (!hidden()) m_text.push_back('<');
            ++m_at;
            return;
        }
        const Tag tag = readTag();
        if (tag.name.empty()) return;
        if (tag.closing)
            closeTag(tag.name);
        else
            openTag(tag);
    }

    void skipBlanks() {
        while (m_at < m_html.size() && isBlank(m_html[m_at]))
            ++m_at;
    }

    std::string readName() {
        const std::size_t begin = m_at;
        while (m_at < m_html.size() && isNameChar(m_html[m_at]))
            ++m_at;
        return lowered(m_html.substr(begin, m_at - begin));
    }

    Tag readTag() {
        Tag tag;
        ++m_at;
        if (m_at < m_html.size() && m_html[m_at] == '/') {
            tag.closing = true;
            ++m_at;
        }
        tag.name = readName();
        while (m_at < m_html.size() && m_html[m_at] != '>') {
            skipBlanks();
            if (m_at >= m_html.size() || m_html[m_at] == '>') break;
            if (m_html[m_at] == '/') {
                tag.selfClosed = true;
                ++m_at;
                continue;
            }
            std::string key = readName();
            if (key.empty()) {
                ++m_at;
                continue;
            }
            skipBlanks();
            std::string value;
            if (m_at < m_html.size() && m_html[m_at] == '=') {
                ++m_at;
                skipBlanks();
                value = readValue();
            }
            tag.attributes.emplace_back(std::move(key), std::move(value));
        }
        if (m_at < m_html.size()) ++m_at;
        return tag;
    }

    std::string readValue() {
        if (m_at >= m_html.size()) return {};
        const char quote = m_html[m_at];
        if (quote == '"' || quote == '\'') {
            const std::size_t end = std::min(m_html.find(quote, m_at + 1), m_html.size());
            std::string value(m_html.substr(m_at + 1, end - m_at - 1));
            m_at = std::min(end + 1, m_html.size());
            return value;
        }
        const std::size_t begin = m_at;
        while (m_at < m_html.size() && !isBlank(m_html[m_at]) && m_html[m_at] != '>')
            ++m_at;
        return std::string(m_html.substr(begin, m_at - begin));
    }

    bool hides(const Tag& tag) const {
        std::string style = lowered(tag.value("style"));
        style.erase(std::remove_if(style.begin(), style.end(), isBlank), style.end());
        if (style.find("display:none") != std::string::npos ||
            style.find("visibility:hidden") != std::string::npos)
            return true;
        if (tag.has("hidden") || lowered(tag.value("aria-hidden")) == "true") return true;
        if (m_hiding.count(tag.name) != 0 ||
            m_hiding.count(std::string("#").append(lowered(tag.value("id")))) != 0)
            return true;
        const std::string classes = lowered(tag.value("class"));
        for (std::size_t begin = 0; begin < classes.size();) {
            const std::size_t end = std::min(classes.find(' ', begin), classes.size());
            const std::string one = std::string(".").append(classes, begin, end - begin);
            if (m_hiding.count(one) != 0 || m_hiding.count(tag.name + one) != 0) return true;
            begin = end + 1;
        }
        return false;
    }

    void openTag(const Tag& tag) {
        if (among(kRawText, tag.name)) {
            skipRaw(tag);
            return;
        }
        if (among(kBlocks, tag.name)) endLine();
        if (among(kVoid, tag.name) || tag.selfClosed) return;
        if (among(kSelfClosing, tag.name) && !m_open.empty() && m_open.back().name == tag.name)
            m_open.pop_back();
        // an unclosed paragraph ends where the next block begins
        if (among(kBlocks, tag.name) && !m_open.empty() && m_open.back().name == "p") m_open.pop_back();
        constexpr std::size_t kDeepest = 4000;
        if (m_open.size() < kDeepest) m_open.push_back({tag.name, hidden() || hides(tag)});
    }

    void closeTag(const std::string& name) {
        if (among(kBlocks, name)) endLine();
        for (std::size_t i = m_open.size(); i > 0 && i + 64 > m_open.size(); --i) {
            if (m_open[i - 1].name != name) continue;
            m_open.resize(i - 1);
            return;
        }
    }

    // The content of scripts and the like is no text; JSON-LD is kept apart.
    void skipRaw(const Tag& tag) {
        const std::string closing = std::string("</").append(tag.name);
        std::size_t end = m_at;
        while (end < m_html.size()) {
            end = m_html.find("</", end);
            if (end == std::string_view::npos) {
                end = m_html.size();
                break;
            }
            if (lowered(m_html.substr(end, closing.size())) == closing) break;
            end += 2;
        }
        if (tag.name == "script" && lowered(tag.value("type")).find("ld+json") != std::string::npos)
            m_page.jsonBlocks.emplace_back(m_html.substr(m_at, end - m_at));
        m_at = std::min(m_html.find('>', end), m_html.size() - 1) + 1;
    }

    HtmlPlace place() const {
        for (std::size_t i = m_open.size(); i > 0; --i) {
            const std::string& name = m_open[i - 1].name;
            if (name == "title") return HtmlPlace::Title;
            if (name == "h1" || name == "h2" || name == "h3" || name == "h4") return HtmlPlace::Heading;
            if (name == "ol") return HtmlPlace::NumberedItem;
            if (name == "ul") return HtmlPlace::ListItem;
        }
        return HtmlPlace::Text;
    }

    void endLine() {
        std::string words;
        bool blank = false;
        for (const char c : withoutEntities(m_text)) {
            if (isBlank(c)) {
                blank = !words.empty();
                continue;
            }
            if (blank) words.push_back(' ');
            blank = false;
            words.push_back(c);
        }
        m_text.clear();
        if (!base::trimmed(words).empty()) m_page.lines.push_back({place(), std::move(words)});
    }

    std::string_view m_html;
    std::size_t m_at = 0;
    std::string m_text;
    std::vector<Open> m_open;
    std::set<std::string> m_hiding;
    HtmlPage m_page;
};

} // namespace

bool looksLikeHtml(std::string_view text) {
    const std::string head = lowered(text.substr(0, 4000));
    constexpr std::array<std::string_view, 12> kSigns{
        "<!doctype html", "<html", "<body", "<head>", "<script type=", "<div",
        "<li>",           "<p>",   "<ul",   "<ol",    "<br",           "<table"};
    if (std::any_of(kSigns.begin(), kSigns.end(),
                    [&](std::string_view sign) { return head.find(sign) != std::string::npos; }))
        return true;
    return head.find("ld+json") != std::string::npos;
}

HtmlPage readHtml(std::string_view html) {
    return Page(html).read();
}

} // namespace stillroom::exchange
