#pragma once

#include "core/base/id.h"
#include "ui/panels/larder/finding_place.h"

#include <QStringList>
#include <QWidget>

#include <functional>
#include <optional>
#include <vector>

class QCheckBox;
class QComboBox;
class QGridLayout;
class QLabel;

namespace stillroom::larder {
struct Ingredient;
}

namespace stillroom::ui {

class EntryField;
class LarderEdit;

// From what is bought to what is poured, and how the house keeps it: what is lost, what it is got from, the
// bottle poured for a kind, how long it keeps, what stands on the shelf.
class TermsForm : public QWidget {
    Q_OBJECT

  public:
    explicit TermsForm(QWidget* parent = nullptr);

    void setEdit(LarderEdit* edit);
    // Why what is typed cannot be read, one sentence each; empty: all can.
    QStringList problems() const;

    EntryField& lost() { return *m_lost; }
    EntryField& gotFrom() { return *m_from; }
    EntryField& gives() { return *m_gives; }
    QComboBox& givenBy() { return *m_givenBy; }
    EntryField& priceShare() { return *m_share; }
    EntryField& pours() { return *m_pours; }
    EntryField& bottleOf() { return *m_bottleOf; }
    QCheckBox& pouredForIt() { return *m_pouredForIt; }
    EntryField& keeps() { return *m_keeps; }
    QCheckBox& dry() { return *m_dry; }
    QComboBox& onShelf() { return *m_onShelf; }
    EntryField& amount() { return *m_amount; }
    EntryField& counted() { return *m_counted; }
    QCheckBox& off() { return *m_off; }
    QString wordsBeside(const QWidget& field) const;

  Q_SIGNALS:
    void acceptAsked();
    void leaveAsked();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    struct Row {
        QLabel* label;
        QWidget* field; // the first of the row
        QWidget* holder;
        QLabel* words;
    };
    using Take = std::function<bool(larder::Ingredient&, const QString&)>;

    EntryField* field(const QString& key, const QString& name, Take take);
    // `spoken`: words stand beside it; else its fields have that room too.
    void addRow(const QString& words, const std::vector<QWidget*>& fields, bool spoken = true);
    void makePurchase();
    void makeHouse();
    void makeShelf();
    void fill();
    void fillPurchase();
    void fillHouse();
    void fillShelf();
    void besideOr(EntryField* field, FindingPlace place, const QString& words, bool shown);
    void beside(const QWidget* field, const QString& words, bool shown = true);
    void change(const std::function<void(larder::Ingredient&)>& edit);
    bool takeLost(larder::Ingredient& next, const QString& text);
    bool takeShare(larder::Ingredient& next, const QString& text);
    bool takeKeeps(larder::Ingredient& next, const QString& text);
    bool takeFrom(larder::Ingredient& next, const QString& text);
    bool takeGives(larder::Ingredient& next, const QString& text);
    bool takePours(larder::Ingredient& next, const QString& text);
    bool takeBottleOf(larder::Ingredient& next, const QString& text);
    bool takeAmount(larder::Ingredient& next, const QString& text);
    void takePouredForIt(bool poured);
    QStringList offered(const QString& text,
                        const std::function<bool(const larder::Ingredient&)>& fits) const;
    // Named as what it is got from, while nobody said what one gives.
    std::optional<base::IngredientId> waitingFrom() const;
    QString typedOf(const char* key) const;
    void dress();

    LarderEdit* m_edit = nullptr;
    bool m_filling = false;
    std::optional<base::IngredientId> m_guessedFor; // its unit was guessed once
    QGridLayout* m_grid;
    std::vector<Row> m_rows;
    EntryField* m_lost;
    EntryField* m_from;
    EntryField* m_gives;
    QComboBox* m_givenBy;
    EntryField* m_share;
    EntryField* m_pours;
    EntryField* m_bottleOf;
    QCheckBox* m_pouredForIt;
    EntryField* m_keeps;
    QCheckBox* m_dry;
    QComboBox* m_onShelf;
    EntryField* m_amount;
    EntryField* m_counted;
    QCheckBox* m_off;
};

} // namespace stillroom::ui
