#pragma once

#include "core/exchange/headings.h"
#include "core/exchange/recipe_reader.h"
#include "core/exchange/yield_words.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Internal to the reading of a recipe: recipe_reader.cpp takes what names a part of it, recipe_lines.cpp what
// says for itself where it belongs.
namespace stillroom::exchange {

bool hasLeadingAmount(const ReadLine& line);
bool isMeasured(const ReadLine& line);
std::size_t wordCount(std::string_view text);

class RecipeStructure {
  public:
    RecipeStructure(const std::vector<SourceLine>& lines, const ReadOptions& options)
        : m_lines(lines),
          m_options(options) {}

    RecipeRead read();

  private:
    ReadRecipe& main() { return m_out.recipe; }
    ReadRecipe& current() { return m_inSub ? main().subRecipes.back() : main(); }
    const ReadRecipe& current() const { return m_inSub ? m_out.recipe.subRecipes.back() : m_out.recipe; }
    // Text that is kept loses controls and direction overrides, so that it can be shown and stored.
    static std::string trimmedText(const std::string& raw);
    ReadLine& record(ReadLine line, ReadKind kind);
    ReadLine plain() const;
    void place(const SourceLine& source);
    bool takeTitle(const ReadLine& read);
    void setTitle(const std::string& text);
    static void takeYield(ReadRecipe& recipe, const std::optional<Yield>& yield);
    bool takeLabel();
    void enter(Section section);
    bool takeLabelled(Section section, const std::string& content);
    // "by A. Writer" under the title
    bool takeByline();
    void startPart(const std::string& name, const std::string& whole);
    // "Chilli tequila: 700 ml tequila, 40 g chilli, sliced. Steep 20 minutes."
    bool takeInlinePart();
    // "House orgeat, 500 ml" after the drink's method, before lines of its own
    bool takeTitledPart(const ReadLine& read);
    // "Other name" after a blank line, before measured lines of its own, when nothing was said of how the
    // first drink is made: perhaps a second drink. Its lines are kept, and somebody must say.
    bool takeSecondName(const ReadLine& read);
    // Something made for the drink: by its sort, or because a line above pours it.
    bool namesAPart(const std::string& title) const;
    const SourceLine* nextLine() const;
    bool takeYieldLine();
    bool startsWithYieldWord() const;
    void placeBySection(ReadLine read);
    // What the garnish is, as the writer put it, without "garnish with".
    std::string garnishWords(const ReadLine& read) const;
    void placeFreely(ReadLine read);
    // "top with soda", "Absinthe rinse": a line of its own until the method begins
    bool isEntering(const ReadLine& read, bool methodSeen) const;
    bool isSentence() const;
    bool belongsToList(const ReadLine& read, bool methodSeen) const;
    void addIngredient(ReadLine read);
    void addStep();
    void addGarnish(const std::string& words);
    void addNote();

    const std::vector<SourceLine>& m_lines;
    const ReadOptions& m_options;
    RecipeRead m_out;
    std::size_t m_at = 0;
    std::string m_text;
    Section m_section = Section::None;
    bool m_titleDone = false;
    bool m_blankBefore = false;
    bool m_inSub = false;
    bool m_lastWasIngredient = false;
};

} // namespace stillroom::exchange
