#pragma once

#include "ui/panels/stock/stock_session.h"

#include <QAbstractTableModel>

#include <vector>

namespace stillroom::ui {

// The drinks, nearest first: how near each is, and how many serves of it are wanted.
class WishModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Drink, Standing, Serves, ColumnCount };

    explicit WishModel(StockSession& session, QObject* parent = nullptr);
    const store::BoardDrink* drink(int row) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;

  Q_SIGNALS:
    void refused(const QString& why);

  private:
    void reload();
    std::vector<std::size_t> order() const;

    StockSession& m_session;
    std::vector<std::size_t> m_rows; // of the board
};

} // namespace stillroom::ui
