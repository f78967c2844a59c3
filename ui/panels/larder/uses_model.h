#pragma once

#include "ui/session/impact_reading.h"

#include <QAbstractTableModel>

#include <memory>

namespace stillroom::ui {

class WorkbookSession;

// Every drink and preparation that depends on the chosen ingredient, and by which way.
class UsesModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Name, Menu, Through, ColumnCount };

    explicit UsesModel(QObject* parent = nullptr);
    void set(WorkbookSession* book, std::shared_ptr<const UsesFound> uses);
    base::DrinkId drinkAt(int row) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    WorkbookSession* m_book = nullptr;
    std::shared_ptr<const UsesFound> m_uses;
};

} // namespace stillroom::ui
