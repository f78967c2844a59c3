#pragma once

#include "ui/session/draft_session.h"
#include "ui/text/numbers.h"

#include <QAbstractTableModel>
#include <QPointer>
#include <QTimer>

#include <array>
#include <vector>

namespace stillroom::ui {

// What the drink reads as: a row per quantity, a column per stage, and how the served one differs from the
// revision below the draft. Shows finished readings; computes nothing.
class ReadingsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Name, Unit, Measured, Mixed, Served, Since, ColumnCount };
    static constexpr int kChangedMs = 2500; // how long changed digits stay underlined

    struct Row {
        spec::Quantity quantity = spec::Quantity::Volume;
        bool newGroup = false;
        QString unit;
        std::array<ReadingText, spec::kStageCount> stages;
        std::array<bool, spec::kStageCount> estimate{};
        QString since;
        int direction = 0;
        int changedFrom = -1; // first changed character of the served number; −1: none lately
        friend bool operator==(const Row&, const Row&) = default;
    };

    explicit ReadingsModel(QObject* parent = nullptr);

    void setSession(DraftSession* session);
    // A revision read as it was: its stored numbers, without differences. nullptr: the draft again.
    void showRevision(const history::Revision* revision);
    const Row& row(int index) const { return m_rows[static_cast<std::size_t>(index)]; }
    static spec::Stage stageOf(int column) { return static_cast<spec::Stage>(column - Measured); }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    std::vector<Row> rowsOf(const spec::Readings& readings, const spec::Readings* base) const;
    QString waterSource() const; // of the row of dilution
    void refresh(bool markChanges);
    void forgetChanges();

    QPointer<DraftSession> m_session;
    std::optional<history::Revision> m_revision;
    std::vector<Row> m_rows;
    QTimer m_forget;
};

} // namespace stillroom::ui
