#pragma once

#include "core/exchange/columns.h"
#include "core/exchange/read_text.h"
#include "ui/session/workbook_session.h"

#include <QString>

#include <map>
#include <optional>

namespace stillroom::ui {

// Pasted text on its way to becoming a drink: what was read, what must be asked, what has been answered.
// Nothing of it is in the book.
class PasteReading {
  public:
    explicit PasteReading(const WorkbookSession& book) : m_book(book) {}

    void read(const QString& text);
    void setImperial(bool imperial);
    bool isImperial() const { return m_imperial; }

    // Rows of a spreadsheet; nullptr when the text is not tab-separated.
    const exchange::ColumnTable* columns() const { return m_columns ? &*m_columns : nullptr; }
    void setColumnUse(std::size_t column, exchange::ColumnUse use);
    void setHeaderRow(bool header);

    struct Row {
        exchange::ReadLine read;
        bool asks = false;     // needs a word before it is used
        bool answered = false; // and has it
        bool doubtful = false; // read as written, and hard to believe
        std::vector<spec::Line> choices;
        int choice = 0;
    };
    const std::vector<Row>& rows() const { return m_rows; }
    void answer(std::size_t row, int choice);
    // Writes one raw line anew and reads everything again; answers to other lines stand.
    void rewrite(std::size_t row, const QString& text);
    int openQuestions() const;
    int doubtful() const;
    int refused() const; // says what cannot be poured
    int notUnderstood() const;
    const QString& text() const { return m_text; } // as it now stands, with what was written anew
    exchange::ReadProblem problem() const { return m_result.problem; }

    QString name() const;
    std::optional<base::DrinkId> drinkOfThatName() const;
    // With what was answered; a line without its answer keeps its words and loses its amount, so that it
    // shows as a gap.
    spec::Spec spec() const;
    // What the text says beside its lines, and every line that could not be read, as written.
    QString notes() const;
    // The line as it now stands, matched against the larder. nullopt: not a line of the drink.
    std::optional<spec::Line> lineOf(const Row& row) const;

  private:
    void reread();
    exchange::ReadLine settled(const exchange::ReadLine& read) const;

    const WorkbookSession& m_book;
    QString m_text;
    bool m_imperial = false;
    std::optional<exchange::ColumnTable> m_columns;
    exchange::ReadResult m_result;
    std::vector<Row> m_rows;
    // By where a line stands and what it says: two alike are asked twice, one written anew is asked anew.
    using Place = std::pair<int, std::string>;
    static Place placeOf(const exchange::ReadLine& read) { return {read.sourceLine, read.raw}; }
    std::map<Place, int> m_answers;
};

} // namespace stillroom::ui
