#pragma once

#include "ui/models/sheet_row.h"
#include "ui/session/draft_session.h"
#include "ui/session/line_entry.h"

#include <QAbstractTableModel>
#include <QPointer>

#include <optional>
#include <vector>

namespace stillroom::ui {

// The spec as a table: its lines, at most one line being inserted, and the empty row at the end. Reads the
// draft session and writes to it only by `apply`; computes nothing.
class SpecModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Role, Amount, Name, Alcohol, Sugar, Acid, Cost, Margin, ColumnCount };

    explicit SpecModel(QObject* parent = nullptr);

    void setSession(DraftSession* session); // nullptr: empty
    // A revision as it was: nothing can be typed into it.
    void showFixed(const RevisionReading& reading);
    DraftSession* session() const { return m_session; }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

    // A row that waits for a line to be written: the last one, or one opened between lines.
    bool isOpenRow(int row) const;
    // The spec's line in this row; -1 for an open row.
    int lineAt(int row) const;
    int rowOf(int line) const;
    const SheetRow* sheetRow(int row) const; // nullptr for an open row
    const SheetTotal& total() const { return m_total; }

    // Opens an empty row above this one; returns it.
    int openRowAbove(int row);
    void closeOpenedRow();
    int openedRow() const { return m_opened; } // -1: none

    // The amount while it is typed: steps under one key are one undo step. False: not an amount.
    bool typeAmount(int row, const QString& text, int mergeKey);
    std::optional<spec::Measured> amountMeant(int row, const QString& text) const;
    bool setAmount(int row, const spec::Measured& measured, int mergeKey);
    bool setName(int row, const QString& name, std::optional<base::IngredientId> chosen);

    enum class Written { Added, Asks, NotALine, Nothing };
    struct WriteResult {
        Written outcome = Written::Nothing;
        int firstLine = -1; // of what was added
        int lines = 0;
        LineEntry entry;
    };
    // A whole line typed into an open row. `Asks`: the entry must be answered, nothing has been added.
    WriteResult write(int row, const QString& text);
    WriteResult insertAnswered(int row, const std::vector<spec::Line>& lines);

    void removeLine(int row);
    void splitLine(int row);
    bool moveLine(int row, int by);
    void setRole(int row, spec::Role role);
    void toggleOptional(int row);

  Q_SIGNALS:
    void totalChanged();

  private:
    void onChanged(const DraftChange& change);
    void refresh();
    void showRows(std::vector<SheetRow> rows);
    void announceDifferences(std::size_t firstLine, const std::vector<SheetRow>& before);
    int lineCount() const { return static_cast<int>(m_rows.size()); }
    std::size_t insertPosition(int row) const;

    QPointer<DraftSession> m_session;
    std::vector<SheetRow> m_rows;
    SheetTotal m_total;
    int m_opened = -1;
    bool m_fixed = false;
};

} // namespace stillroom::ui
