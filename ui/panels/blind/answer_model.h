#pragma once

#include "core/tasting/panel_entry.h"
#include "core/tasting/panel_texts.h"
#include "ui/panels/blind/sample_name.h"

#include "ui/theme/look.h"

#include <QAbstractTableModel>
#include <QStringList>

#include <optional>
#include <vector>

namespace stillroom::ui {

// Answers as they come in, one taster a row: a cell for every mark that is asked for, then a note and whether
// the answer is whole. Shows codes. What is in the cups is shown only once `setOpened` was told, which the
// model takes for a closed panel alone.
class AnswerModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Role { CodeRole = Qt::UserRole, MarkRole, ProductRole, RevisionRole, ChoiceRole, StandingRole };

    explicit AnswerModel(QObject* parent = nullptr);

    void setPanel(const tasting::Panel& panel, const tasting::PanelNames& names);
    void setOpened(const std::vector<SampleName>& samples);
    bool isOpened() const { return !m_products.empty(); }
    double productWidth(const Look& look) const;  // of the longest name, 0 while nothing is opened
    double standingWidth(const Look& look) const; // of the longest word in the last column
    double nameWidth(const Look& look) const;     // of the longest taster's name
    bool hasNotes() const;
    void setWritable(bool writable) { m_writable = writable; }

    int marks() const; // columns 1 … marks() are marks
    int noteColumn() const { return marks() + 1; }
    int standingColumn() const { return marks() + 2; }
    bool isMark(const QModelIndex& index) const { return index.column() >= 1 && index.column() <= marks(); }
    tasting::AskedMark asked(int column) const;
    std::optional<int> mark(const QModelIndex& index) const;
    const tasting::Panel& panel() const { return m_panel; }

    // Asks for the answer to be kept; what is shown changes when it was (setAnswer).
    void enterMark(const QModelIndex& index, std::optional<int> mark);
    void setAnswer(std::size_t taster, const tasting::Answer& answer);
    int firstOpenRow() const; // the first taster without a whole answer; 0 when there is none

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

  Q_SIGNALS:
    void answered(std::size_t taster, const stillroom::tasting::Answer& answer);

  private:
    struct Column {
        std::size_t cup = 0;
        tasting::AskedMark asked;
    };
    const Column& column(int at) const { return m_columns[static_cast<std::size_t>(at - 1)]; }
    const tasting::Cup& cup(const QModelIndex& index) const;
    QString said(const QModelIndex& index) const;
    QString standing(std::size_t row) const;

    tasting::Panel m_panel;
    tasting::PanelNames m_names;
    std::vector<Column> m_columns;
    std::vector<SampleName> m_products;
    std::vector<tasting::OpenedAnswer> m_opened;
    bool m_writable = false;
};

} // namespace stillroom::ui
