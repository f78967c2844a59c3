#pragma once

#include "core/larder/listing.h"

#include <QAbstractTableModel>
#include <QPointer>

#include <vector>

namespace stillroom::ui {

class WorkbookSession;

// Everything that can go in a drink, as finished rows: a paint looks up, it never works anything out. Own
// things always; the handbook's kinds when they are asked for or found by the filter.
class LarderListModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Name, Kind, Strength, Price, Stock, ColumnCount };
    struct Row {
        larder::Listed listed;
        QString name, kind, strength, price, per, stock;
        bool doubtful = false;   // its facts are hard to believe together, or under its name
        bool noStrength = false; // asked for and not stated
        bool noPrice = false;
    };

    explicit LarderListModel(QObject* parent = nullptr);

    void setBook(WorkbookSession* book);
    void setFilter(const QString& text);
    void setHandbookShown(bool shown);
    bool isHandbookShown() const { return m_handbook; }
    const QString& filter() const { return m_filter; }
    const Row& row(int index) const { return m_all[m_shown[static_cast<std::size_t>(index)]]; }
    int rowOf(base::IngredientId ingredient) const; // -1: not shown
    int ownCount() const { return m_own; }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    void reload();
    void choose();

    QPointer<WorkbookSession> m_book;
    std::vector<Row> m_all;
    std::vector<std::size_t> m_shown;
    QString m_filter;
    bool m_handbook = false;
    int m_own = 0;
};

} // namespace stillroom::ui
