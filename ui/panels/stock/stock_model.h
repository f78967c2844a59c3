#pragma once

#include "ui/panels/stock/stock_session.h"

#include <QAbstractTableModel>

#include <vector>

namespace stillroom::ui {

// What stands on the shelf, a row for each thing. Filtered by name; a filter also finds what no drink names
// yet, so that it can be counted.
class StockModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Name, State, Amount, ColumnCount };

    explicit StockModel(StockSession& session, QObject* parent = nullptr);

    void setFilter(const QString& text);
    base::IngredientId ingredient(int row) const; // null when there is none
    int rowOf(base::IngredientId ingredient) const;
    // One of the four words, or taken back; a count goes with "out".
    bool setState(int row, larder::OnShelf state);
    bool setOff(int row, bool off);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;

  Q_SIGNALS:
    void refused(const QString& why); // what was typed is no count
    void said(const QString& what);

  private:
    void reload();
    std::vector<base::IngredientId> shown() const;
    const larder::Ingredient* at(int row) const;
    bool change(int row, const larder::Stock& stock);

    StockSession& m_session;
    QString m_filter;
    std::vector<base::IngredientId> m_rows;
};

} // namespace stillroom::ui
