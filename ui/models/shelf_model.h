#pragma once

#include "ui/session/workbook_session.h"

#include <QAbstractListModel>
#include <QPointer>

#include <string>
#include <vector>

namespace stillroom::ui {

// The shelf: drinks under their menu, preparations below, what is in the bin last. Headings are rows that
// cannot be chosen. A filter keeps what holds all its words.
class ShelfModel : public QAbstractListModel {
    Q_OBJECT

  public:
    enum class Sort { Heading, Drink, Preparation };
    enum Role { DrinkIdRole = Qt::UserRole + 1 };

    struct Row {
        Sort sort = Sort::Drink;
        QString name;
        QString number; // served strength, or a heading's unit
        bool gap = false;
        bool draftDiffers = false;
        bool hasHouse = false;
        bool hasPublished = false;
        bool kept = false;
        bool binned = false;
        base::DrinkId drink;
        friend bool operator==(const Row&, const Row&) = default;
    };

    explicit ShelfModel(QObject* parent = nullptr);

    void setBook(WorkbookSession* book);
    void setFilter(const QString& text);
    const QString& filter() const { return m_filter; }
    const Row& row(int index) const { return m_rows[static_cast<std::size_t>(index)]; }
    int rowOf(base::DrinkId drink) const; // -1: not shown
    int firstDrinkRow() const;            // -1: none

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

  private:
    void reload();
    std::vector<Row> rowsShown() const;
    Row rowOfSummary(const store::DrinkSummary& summary) const;
    void rowChanged(base::DrinkId drink);

    QPointer<WorkbookSession> m_book;
    std::vector<std::string> m_folded; // by shelf position, for the filter
    std::vector<Row> m_rows;
    QString m_filter;
};

} // namespace stillroom::ui
