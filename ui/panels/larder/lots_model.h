#pragma once

#include "core/larder/ingredient.h"

#include <QAbstractTableModel>

namespace stillroom::ui {

class LarderEdit;

// What was made or bought on a date, newest first, and a last row for the next. The figures measured of the
// lot in use stand instead of the ingredient's facts.
class LotsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { On, UseBy, Got, Strength, Sugar, Acid, Note, State, ColumnCount };

    explicit LotsModel(QObject* parent = nullptr);
    void setEdit(LarderEdit* edit);
    QStringList problems() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    void refresh();
    bool isNext(int row) const { return row == static_cast<int>(m_lots.size()); }
    QString field(int row, int column) const;
    bool isPast(int row) const;
    bool isWorkedOut(int row, int column) const;
    QString text(const larder::Lot& lot, int column) const;
    bool take(larder::Lot& lot, int column, const QString& text) const;
    void takeState(const larder::Lot& lot, const QString& word);

    LarderEdit* m_edit = nullptr;
    base::IngredientId m_of;
    std::vector<larder::Lot> m_lots;
    std::vector<QString> m_lastDays; // beside m_lots: as written, else worked out; empty: no limit known
};

} // namespace stillroom::ui
