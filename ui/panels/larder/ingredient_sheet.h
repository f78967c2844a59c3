#pragma once

#include "core/larder/ingredient.h"

#include <QWidget>

class QLabel;

namespace stillroom::ui {

class AllergensBox;
class EntryField;
class EntryTable;
class FactsModel;
class FoodTableBox;
class LarderEdit;
class LotsModel;
class PacksModel;
class PriceSteps;
class TermsForm;
class UsesModel;

// The chosen ingredient, all of it: who it is, its facts, what is doubtful, where it is used.
class IngredientSheet : public QWidget {
    Q_OBJECT

  public:
    explicit IngredientSheet(QWidget* parent = nullptr);

    void setEdit(LarderEdit* edit);
    EntryField& name() { return *m_name; }
    EntryField& maker() { return *m_maker; }
    EntryField& aliases() { return *m_aliases; }
    EntryTable& facts() { return *m_facts; }
    EntryTable& lots() { return *m_lots; }
    PriceSteps& prices() { return *m_prices; }
    EntryTable& packs() { return *m_packs; }
    TermsForm& terms() { return *m_terms; }
    AllergensBox& allergensBox() { return *m_allergens; }
    EntryTable& uses() { return *m_usesTable; }
    FoodTableBox& foodTable() { return *m_foodTable; }
    // To the next fact that is doubtful or missing; false: there is no further one.
    bool toNextDoubt();
    QString doubts() const;
    QString factsWords() const;
    QString packsWords() const;
    QString allergens() const;
    void focusFirst();
    // Why something asked for was not done; gone with the next edit or choice.
    void refuse(const QString& words);
    QString refusal() const;

  Q_SIGNALS:
    void drinkAsked(base::DrinkId drink);
    void acceptAsked();
    void leaveAsked();
    void unreadChanged(const QStringList& sentences);
    void doubtsChanged(const QString& doubts);

  protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    void fill();
    void sayBeside();
    void showDoubts(const larder::Ingredient& of, bool typing);
    void showUses();
    QLabel* heading(const QString& text);
    QWidget* makeIdentity();
    void dress();

    LarderEdit* m_edit = nullptr;
    QLabel* m_sort;
    EntryField* m_name;
    EntryField* m_maker;
    EntryField* m_aliases;
    QLabel* m_refusal;
    QLabel* m_made;
    QLabel* m_measured; // the lot in use, whose figures stand before these facts
    FactsModel* m_factsModel;
    QLabel* m_factsWords; // what is wrong in the table above it
    EntryTable* m_facts;
    QString m_doubts;
    FoodTableBox* m_foodTable;
    PacksModel* m_packsModel;
    QLabel* m_packsWords;
    EntryTable* m_packs;
    PriceSteps* m_prices;
    TermsForm* m_terms;
    LotsModel* m_lotsModel;
    EntryTable* m_lots;
    AllergensBox* m_allergens;
    QLabel* m_usesWords;
    UsesModel* m_usesModel;
    EntryTable* m_usesTable;
    QList<QLabel*> m_headings;
    QList<QLabel*> m_fieldLabels;
};

} // namespace stillroom::ui
