#pragma once

#include "core/larder/ingredient.h"

#include <QAbstractTableModel>

#include <map>
#include <optional>

namespace stillroom::ui {

class LarderEdit;

// The facts of the chosen ingredient, one a row. What is typed becomes the pending edit; what cannot be read
// stays as typed, framed, and says why.
class FactsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { Fact, Value, Unit, Range, Sayer, Source, On, ColumnCount };

    explicit FactsModel(QObject* parent = nullptr);
    void setEdit(LarderEdit* edit);
    // The ingredient with this in the cell; nullopt: it cannot be read.
    std::optional<larder::Ingredient> with(int row, int column, const QString& text) const;
    // Whose facts are hard to believe, by key, and why.
    void setDoubts(std::map<QString, QString> doubts);
    bool isDoubtful(int row) const;
    // Why what is typed cannot be read, one sentence each; empty: all can.
    QStringList problems() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    QString text(int row, int column) const;
    QString fieldOf(int row, int column) const;
    bool isAsked(int row) const;   // a reading would ask for it
    bool isRefused(int row) const; // its figure cannot be
    LarderEdit* m_edit = nullptr;
    std::map<QString, QString> m_doubts;
};

} // namespace stillroom::ui
