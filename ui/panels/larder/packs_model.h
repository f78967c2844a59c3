#pragma once

#include "core/larder/ingredient.h"

#include <QAbstractTableModel>

namespace stillroom::ui {

class LarderEdit;

// What was paid, one pack a row, and a last row for the next price. What that row does not say is as it was
// on the last: a new price of the same bottle is one number.
class PacksModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Holds, Price, Currency, Tax, Supplier, On, Each, Change, ColumnCount };

    explicit PacksModel(QObject* parent = nullptr);
    void setEdit(LarderEdit* edit);
    QStringList problems() const;
    void remove(int row);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    struct Shown {
        std::size_t at; // in the ingredient's packs
        base::PackId id;
        QString each, change;
    };
    void refresh();
    void put(std::vector<Shown> shown);
    bool isNext(int row) const { return row == static_cast<int>(m_shown.size()); }
    const larder::Pack& pack(int row) const;
    QString field(int row, int column) const;
    QString text(int row, int column) const;
    bool take(larder::Pack& pack, int column, const QString& text) const;
    bool takeNext(int column, const QString& text);
    bool isRefused(int row, int column) const; // it can be read and cannot be
    QString problem(int column, const QString& typed) const;

    LarderEdit* m_edit = nullptr;
    base::IngredientId m_of; // whose packs are shown
    std::vector<Shown> m_shown;
};

} // namespace stillroom::ui
