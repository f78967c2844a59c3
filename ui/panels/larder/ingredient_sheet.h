#pragma once

#include "core/base/id.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;

namespace stillroom::ui {

class AllergensBox;
class EntryTable;
class FactsModel;
class LarderEdit;
class PacksModel;
class UsesModel;

// The chosen ingredient, all of it: who it is, its facts, what is doubtful, where it is used.
class IngredientSheet : public QWidget {
    Q_OBJECT

  public:
    explicit IngredientSheet(QWidget* parent = nullptr);

    void setEdit(LarderEdit* edit);
    QLineEdit& name() { return *m_name; }
    QLineEdit& maker() { return *m_maker; }
    QLineEdit& aliases() { return *m_aliases; }
    EntryTable& facts() { return *m_facts; }
    EntryTable& packs() { return *m_packs; }
    AllergensBox& allergensBox() { return *m_allergens; }
    EntryTable& uses() { return *m_usesTable; }
    QString doubts() const;
    QString allergens() const;
    void focusFirst();

  Q_SIGNALS:
    void drinkAsked(base::DrinkId drink);
    void acceptAsked();
    void leaveAsked();
    void unreadChanged(const QStringList& sentences);

  protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    void fill();
    void showUses();
    void takeIdentity();
    QLabel* heading(const QString& text);
    QWidget* makeIdentity();
    void dress();

    LarderEdit* m_edit = nullptr;
    bool m_filling = false;
    QLabel* m_sort;
    QLineEdit* m_name;
    QLineEdit* m_maker;
    QLineEdit* m_aliases;
    QLabel* m_made;
    FactsModel* m_factsModel;
    EntryTable* m_facts;
    QLabel* m_doubts;
    AllergensBox* m_allergens;
    PacksModel* m_packsModel;
    EntryTable* m_packs;
    QLabel* m_usesWords;
    UsesModel* m_usesModel;
    EntryTable* m_usesTable;
    QList<QLabel*> m_headings;
};

} // namespace stillroom::ui
