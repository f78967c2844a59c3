#pragma once

#include "core/history/history.h"

#include <QUndoCommand>

#include <optional>
#include <string>
#include <vector>

namespace stillroom::ui {

class DraftSession;

// What a person writes about a drink around its spec.
struct DrinkWords {
    std::string name;
    std::string brief;
    std::string notes;
    std::string menuName;
    std::string credit;
    history::Lineage after;
    std::vector<std::string> tags;
    friend bool operator==(const DrinkWords&, const DrinkWords&) = default;
};

struct DraftContent {
    spec::Spec spec;
    DrinkWords words;
    friend bool operator==(const DraftContent&, const DraftContent&) = default;
};

// What the book takes a written name for, before and after a step. nullopt: no word on it.
struct NameMeaning {
    std::string written;
    std::optional<base::IngredientId> before;
    std::optional<base::IngredientId> after;
};

// One step of one sitting: the draft before and after. Values are small, so one class serves every edit.
// Steps with the same key merge, so that typing in one field is one step.
class EditCommand : public QUndoCommand {
  public:
    EditCommand(DraftSession& session, DraftContent before, DraftContent after, const QString& label,
                int mergeKey, QObject* origin);

    // The step also tells the book what a name means; undoing it takes that back.
    void setMeaning(NameMeaning meaning) { m_meaning = std::move(meaning); }

    int id() const override { return m_mergeKey; }
    void undo() override;
    void redo() override;
    bool mergeWith(const QUndoCommand* other) override;

  private:
    DraftSession& m_session;
    DraftContent m_before;
    DraftContent m_after;
    std::optional<NameMeaning> m_meaning;
    int m_mergeKey;
    QObject* m_origin; // of the first redo only; undo and later redos come from the stack
};

} // namespace stillroom::ui
