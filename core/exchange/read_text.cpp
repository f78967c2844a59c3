#include "core/exchange/read_text.h"
#include "core/exchange/line_draft.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/columns.h"
#include "core/exchange/decode.h"
#include "core/exchange/html_text.h"
#include "core/exchange/json_recipe.h"
#include "core/exchange/recipe_reader.h"
#include "core/exchange/yield_words.h"

#include "core/base/text.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

// A book is smaller; a larger text is refused before anything is built of it.
constexpr std::size_t kLargestText = 64U << 20U;

ReadResult problem(ReadProblem what) {
    ReadResult result;
    result.problem = what;
    return result;
}

bool isBlank(std::string_view text) {
    constexpr std::size_t kEnoughToTell = 256;
    return cleanLine(text.substr(0, kEnoughToTell)).text.empty() &&
           (text.size() <= kEnoughToTell || cleanLine(text).text.empty());
}

ReadResult withRecipe(const std::vector<SourceLine>& lines, const ReadOptions& options) {
    RecipeRead read = readRecipe(lines, options);
    ReadResult result;
    result.every = std::move(read.every);
    const ReadRecipe& recipe = read.recipe;
    const bool anything = !recipe.name.empty() || !recipe.lines.empty() || !recipe.method.empty();
    if (anything)
        result.drinks.push_back(std::move(read.recipe));
    else
        result.problem = ReadProblem::NothingToRead;
    for (const ReadLine& line : result.every)
        for (const Doubt& doubt : line.doubts)
            if (doubt.code == DoubtCode::LineTooLong) result.doubts.push_back(doubt);
    return result;
}

std::vector<SourceLine> sourceLines(const JsonRecipe& recipe) {
    std::vector<SourceLine> lines;
    int number = 0;
    lines.push_back({recipe.name, ++number, false, LineHint::Title});
    for (const std::string& one : recipe.ingredients)
        lines.push_back({one, ++number, false, LineHint::Ingredient});
    for (const std::string& one : recipe.method)
        lines.push_back({one, ++number, false, LineHint::Method});
    for (const std::string& one : recipe.notes)
        lines.push_back({one, ++number, false, LineHint::Note});
    return lines;
}

ReadResult fromJson(const JsonRecipe& recipe, const ReadOptions& options) {
    ReadResult result = withRecipe(sourceLines(recipe), options);
    if (result.drinks.empty()) return result;
    ReadRecipe& drink = result.drinks.front();
    drink.name = recipe.name;
    if (const auto yield = readYieldOfLabel(recipe.yield)) {
        drink.yield = yield->amount;
        drink.yieldUnit = yield->unit;
        drink.yieldApprox = yield->approx;
    }
    drink.credit = recipe.credit;
    drink.sections = recipe.sections;
    return result;
}

// Tries blocks in turn: a broken one is reported and the next one still read.
std::optional<ReadResult> fromBlocks(const std::vector<std::string>& blocks, const ReadOptions& options,
                                     std::vector<Doubt>& doubts) {
    for (const std::string& block : blocks) {
        const JsonRead read = readJsonRecipe(block);
        const std::string detail = base::elided(base::trimmed(block), 80);
        if (read.outcome == JsonOutcome::Invalid)
            doubts.push_back({DoubtCode::MarkupBlockInvalid, DoubtWeight::Warn, detail});
        if (read.outcome == JsonOutcome::TooDeep)
            doubts.push_back({DoubtCode::NestingTooDeep, DoubtWeight::Refuse, detail});
        if (read.outcome == JsonOutcome::Found) return fromJson(read.recipe, options);
    }
    return std::nullopt;
}

// "Garden Collins | A Page"
std::string pageTitle(const std::string& title) {
    for (const std::string_view mark : {" | ", " – ", " — ", " - ", " « ", " » "})
        if (const std::size_t at = title.find(mark); at != std::string::npos && at > 0)
            return title.substr(0, at);
    return title;
}

bool readsAsIngredient(const std::string& text, const ReadOptions& options) {
    const ReadLine line = readLineInText(text, options);
    return line.kind == ReadKind::Ingredient && line.line.poured.amount.isStated() &&
           line.line.poured.measure;
}

// In a page with lists, lists hold the recipe; the words around them are notes.
std::vector<SourceLine> sourceLines(const HtmlPage& page, const ReadOptions& options) {
    bool lists = false;
    bool steps = false;
    bool heading = false;
    for (const HtmlLine& line : page.lines) {
        lists |= line.place == HtmlPlace::ListItem && readsAsIngredient(line.text, options);
        steps |= line.place == HtmlPlace::NumberedItem;
        heading |= line.place == HtmlPlace::Heading;
    }
    std::vector<SourceLine> lines;
    bool titled = false;
    for (const HtmlLine& line : page.lines) {
        SourceLine source;
        source.text = line.text;
        source.number = static_cast<int>(lines.size()) + 1;
        const bool title = !titled && line.place == (heading ? HtmlPlace::Heading : HtmlPlace::Title);
        if (line.place == HtmlPlace::Title && heading) continue; // said again in the heading
        if (title) {
            if (line.place == HtmlPlace::Title) source.text = pageTitle(line.text);
            source.hint = LineHint::Title;
            titled = true;
        } else if (line.place == HtmlPlace::NumberedItem) {
            source.hint =
                readsAsIngredient(line.text, options) && !lists ? LineHint::Ingredient : LineHint::Method;
        } else if (line.place == HtmlPlace::ListItem && lists) {
            source.hint = LineHint::Ingredient;
        } else if (lists && line.place == HtmlPlace::Text && steps) {
            source.hint = LineHint::Note;
        }
        lines.push_back(std::move(source));
    }
    return lines;
}

ReadResult fromHtml(const std::string& text, const ReadOptions& options) {
    const HtmlPage page = readHtml(text);
    std::vector<Doubt> doubts;
    ReadResult result;
    if (auto found = fromBlocks(page.jsonBlocks, options, doubts))
        result = std::move(*found);
    else if (!page.lines.empty())
        result = withRecipe(sourceLines(page, options), options);
    else
        result.problem = ReadProblem::NothingToRead;
    const bool deep = std::any_of(doubts.begin(), doubts.end(),
                                  [](const Doubt& d) { return d.code == DoubtCode::NestingTooDeep; });
    if (result.drinks.empty() && deep) result.problem = ReadProblem::TooDeep;
    result.doubts.insert(result.doubts.begin(), doubts.begin(), doubts.end());
    return result;
}

ReadResult fromJsonText(const std::string& text, const ReadOptions& options) {
    std::vector<Doubt> doubts;
    ReadResult result;
    if (auto found = fromBlocks({text}, options, doubts)) {
        result = std::move(*found);
    } else {
        const bool deep = std::any_of(doubts.begin(), doubts.end(),
                                      [](const Doubt& d) { return d.code == DoubtCode::NestingTooDeep; });
        result.problem = deep ? ReadProblem::TooDeep : ReadProblem::NothingToRead;
    }
    result.doubts.insert(result.doubts.begin(), doubts.begin(), doubts.end());
    return result;
}

ReadResult fromPlain(const Decoded& decoded, const ReadOptions& options) {
    std::vector<SourceLine> lines;
    lines.reserve(decoded.lines.size());
    int number = 0;
    for (const DecodedLine& line : decoded.lines)
        lines.push_back({line.text, ++number, line.recovered, LineHint::None});
    return withRecipe(lines, options);
}

} // namespace

ReadResult readText(std::string_view bytes, const ReadOptions& options) {
    if (bytes.size() > kLargestText) return problem(ReadProblem::TooLarge);
    const Decoded decoded = decodeText(bytes);
    if (!decoded.isText) return problem(ReadProblem::NotText);
    const bool nothing = std::all_of(decoded.lines.begin(), decoded.lines.end(),
                                     [](const DecodedLine& line) { return isBlank(line.text); });
    if (nothing) return problem(ReadProblem::NothingToRead);
    const std::string text = decoded.joined();
    ReadResult result;
    if (looksLikeHtml(text)) {
        result = fromHtml(text, options);
    } else if (looksLikeJson(text)) {
        result = fromJsonText(text, options);
    } else if (const auto table = readColumns(text)) {
        result = readTable(*table, options);
    } else {
        result = fromPlain(decoded, options);
    }
    if (decoded.recovered) result.doubts.push_back({DoubtCode::EncodingRecovered, DoubtWeight::Warn, {}});
    return result;
}

} // namespace stillroom::exchange
