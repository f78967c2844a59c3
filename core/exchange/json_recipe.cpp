#include "core/exchange/json_recipe.h"

#include "core/base/text.h"
#include "core/exchange/html_text.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace stillroom::exchange {

namespace {

using Json = nlohmann::json;

// Real pages nest about ten levels; everything below recurses at most this deep.
constexpr int kDeepest = 64;

int depthOf(std::string_view text) {
    int depth = 0;
    int deepest = 0;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            if (c == '\\')
                ++i;
            else if (c == '"')
                quoted = false;
            continue;
        }
        if (c == '"') quoted = true;
        if (c == '{' || c == '[') deepest = std::max(deepest, ++depth);
        if (c == '}' || c == ']') --depth;
    }
    return deepest;
}

// Old pages wrap the block in comment marks.
std::string_view unwrapped(std::string_view text) {
    text = base::trimmed(text);
    for (const std::string_view open : {"<!--", "//<![CDATA[", "/*<![CDATA[*/", "<![CDATA["})
        if (text.substr(0, open.size()) == open) text = base::trimmed(text.substr(open.size()));
    for (const std::string_view close : {"-->", "//]]>", "/*]]>*/", "]]>"})
        if (text.size() >= close.size() && text.substr(text.size() - close.size()) == close)
            text = base::trimmed(text.substr(0, text.size() - close.size()));
    return text;
}

bool isType(const Json& node, std::string_view name) {
    const auto type = node.find("@type");
    if (type == node.end()) return false;
    const auto matches = [&](const Json& t) {
        if (!t.is_string()) return false;
        const auto& text = t.get_ref<const std::string&>();
        if (text == name) return true;
        return text.size() > name.size() && text.substr(text.size() - name.size()) == name &&
               (text[text.size() - name.size() - 1] == '/' || text[text.size() - name.size() - 1] == '#');
    };
    if (type->is_array()) return std::any_of(type->begin(), type->end(), matches);
    return matches(*type);
}

const Json* member(const Json& node, const char* key) {
    if (!node.is_object()) return nullptr;
    const auto found = node.find(key);
    return found == node.end() || found->is_null() ? nullptr : &*found;
}

const Json* findRecipe(const Json& node) {
    if (node.is_object() && isType(node, "Recipe")) return &node;
    if (!node.is_structured()) return nullptr;
    for (const Json& child : node)
        if (child.is_structured())
            if (const Json* found = findRecipe(child)) return found;
    return nullptr;
}

std::string numberText(const Json& number) {
    return number.is_number_float() ? base::shortestDecimal(number.get<double>()) : number.dump();
}

// Text as a person would see it: entities and tags resolved, one string per block.
std::vector<std::string> wordsOf(const std::string& text) {
    std::vector<std::string> out;
    const bool tagged = text.find('<') != std::string::npos && text.find('>') != std::string::npos;
    if (tagged) {
        for (HtmlLine& line : readHtml(text).lines)
            out.push_back(std::move(line.text));
        return out;
    }
    const std::string plain = withoutEntities(text);
    for (std::size_t begin = 0; begin <= plain.size();) {
        const std::size_t end = std::min(plain.find_first_of("\r\n", begin), plain.size());
        const std::string_view line = base::trimmed(std::string_view(plain).substr(begin, end - begin));
        if (!line.empty()) out.emplace_back(line);
        begin = end + 1;
    }
    return out;
}

std::string firstText(const Json* value) {
    if (value == nullptr) return {};
    if (value->is_string()) {
        const auto words = wordsOf(value->get<std::string>());
        return words.empty() ? std::string() : words.front();
    }
    if (value->is_number()) return numberText(*value);
    if (value->is_array()) return value->empty() ? std::string() : firstText(&value->front());
    if (value->is_object()) {
        for (const char* key : {"name", "text", "@value", "value"})
            if (const Json* inner = member(*value, key)) return firstText(inner);
    }
    return {};
}

class RecipeNode {
  public:
    explicit RecipeNode(const Json& node) : m_node(node) {}

    JsonRecipe read() {
        m_out.name = firstText(member(m_node, "name"));
        m_out.yield = firstText(member(m_node, "recipeYield"));
        if (m_out.yield.empty()) m_out.yield = firstText(member(m_node, "yield"));
        m_out.credit = firstText(member(m_node, "author"));
        if (const Json* about = member(m_node, "description"); about != nullptr && about->is_string())
            m_out.notes = wordsOf(about->get<std::string>());
        for (const char* key : {"recipeIngredient", "ingredients", "supply"})
            if (const Json* list = member(m_node, key); list != nullptr && m_out.ingredients.empty())
                addIngredients(*list);
        for (const char* key : {"recipeInstructions", "step", "instructions"})
            if (const Json* steps = member(m_node, key); steps != nullptr && m_out.method.empty())
                addSteps(*steps);
        return std::move(m_out);
    }

  private:
    void addIngredients(const Json& value) {
        if (value.is_array()) {
            for (const Json& one : value)
                addIngredients(one);
        } else if (value.is_string()) {
            for (std::string& line : wordsOf(value.get<std::string>()))
                m_out.ingredients.push_back(std::move(line));
        } else if (value.is_object()) {
            if (const Json* items = member(value, "itemListElement")) {
                addIngredients(*items);
                return;
            }
            if (const Json* item = member(value, "item"); item != nullptr && item->is_structured()) {
                addIngredients(*item);
                return;
            }
            std::string line;
            for (const char* key : {"amount", "requiredQuantity", "quantity", "value", "unitText", "unit",
                                    "unitCode", "name", "text", "note"}) {
                const Json* part = member(value, key);
                if (part == nullptr) continue;
                std::string words = part->is_object() ? quantityText(*part) : firstText(part);
                if (words.empty()) continue;
                if (!line.empty()) line += std::string_view(key) == "note" ? ", " : " ";
                line += words;
            }
            if (!line.empty()) m_out.ingredients.push_back(std::move(line));
        }
    }

    static std::string quantityText(const Json& quantity) {
        std::string text = firstText(member(quantity, "value"));
        for (const char* key : {"unitText", "unitCode"}) {
            const std::string unit = firstText(member(quantity, key));
            if (unit.empty()) continue;
            text.push_back(' ');
            text += unit;
            break;
        }
        return text.empty() ? firstText(&quantity) : text;
    }

    void addSteps(const Json& value) {
        if (value.is_array()) {
            for (const Json& one : value)
                addSteps(one);
        } else if (value.is_string()) {
            for (std::string& step : wordsOf(value.get<std::string>()))
                m_out.method.push_back(std::move(step));
        } else if (value.is_object()) {
            addStep(value);
        }
    }

    void addStep(const Json& step) {
        if (const Json* inner = member(step, "itemListElement")) {
            if (isType(step, "HowToSection")) {
                if (std::string name = firstText(member(step, "name")); !name.empty())
                    m_out.sections.push_back(std::move(name));
            }
            addSteps(*inner);
        } else if (const Json* steps = member(step, "steps")) {
            addSteps(*steps);
        } else if (const Json* item = member(step, "item")) {
            addSteps(*item);
        } else if (const Json* text = member(step, "text")) {
            addSteps(*text);
        } else if (const Json* name = member(step, "name")) {
            addSteps(*name);
        }
    }

    const Json& m_node;
    JsonRecipe m_out;
};

} // namespace

bool looksLikeJson(std::string_view text) {
    text = base::trimmed(text);
    return text.size() > 1 && (text.front() == '{' || text.front() == '[') &&
           text.find("Recipe") != std::string_view::npos;
}

JsonRead readJsonRecipe(std::string_view json) {
    JsonRead out;
    const std::string_view text = unwrapped(json);
    if (depthOf(text) > kDeepest) {
        out.outcome = JsonOutcome::TooDeep;
        return out;
    }
    const Json parsed = Json::parse(text, nullptr, false);
    if (parsed.is_discarded()) {
        out.outcome = JsonOutcome::Invalid;
        return out;
    }
    const Json* node = findRecipe(parsed);
    if (node == nullptr) return out;
    out.outcome = JsonOutcome::Found;
    out.recipe = RecipeNode(*node).read();
    return out;
}

} // namespace stillroom::exchange
