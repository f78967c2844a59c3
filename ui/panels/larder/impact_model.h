#pragma once

#include "ui/session/impact_reading.h"

#include <QAbstractTableModel>

#include <memory>

namespace stillroom::ui {

class WorkbookSession;

// What a pending edit does, the largest change first: preparations, then drafts and revisions.
class ImpactModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Name, Version, Strength, Sugar, Acid, Cost, Allergens, ColumnCount };

    explicit ImpactModel(QObject* parent = nullptr);
    void set(WorkbookSession* book, std::shared_ptr<const ImpactFound> found);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

    // Something differs there: a figure is another, an allergen came or went.
    bool moves(int row, int column) const;

  private:
    int made() const;
    QString madeText(int row, int column) const;
    QString drinkText(int row, int column) const;
    WorkbookSession* m_book = nullptr;
    std::shared_ptr<const ImpactFound> m_found;
};

} // namespace stillroom::ui
