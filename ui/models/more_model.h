#pragma once

#include "core/spec/more_readings.h"
#include "ui/text/numbers.h"

#include <QAbstractTableModel>

#include <array>
#include <optional>
#include <vector>

namespace stillroom::ui {

// The further readings: headings, a row per reading with a column per stage, and under it what to know before
// using it. Shows finished readings; computes nothing.
class MoreModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Name, Unit, Measured, Mixed, Served, ColumnCount };
    enum class Kind { Heading, Reading, Note };

    struct Row {
        Kind kind = Kind::Reading;
        QString name; // of a note or heading: all of it
        QString unit;
        std::array<ReadingText, spec::kStageCount> stages;
        std::optional<spec::More> more; // whose working it opens
        spec::Quantity quantity = {};   // the same, when it is no further reading
        friend bool operator==(const Row&, const Row&) = default;
    };

    using QAbstractTableModel::QAbstractTableModel;

    void setValues(const spec::FurtherReadings& further, const spec::Readings& readings);
    void clear();
    const Row& row(int index) const { return m_rows[static_cast<std::size_t>(index)]; }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

  private:
    std::vector<Row> m_rows;
};

} // namespace stillroom::ui
