#pragma once

#include "core/preparation/substitute.h"

#include <QDialog>

#include <optional>

class QCheckBox;
class QComboBox;
class QLineEdit;
class QListWidget;
class QPushButton;
class QTableWidget;

namespace stillroom::ui {

class WrapLabel;

// What the dialog asks about. Larder and rules outlive it.
struct StandInAsk {
    spec::Spec spec;
    std::size_t line = 0;
    const larder::Larder* larder = nullptr;
    const spec::HouseRules* rules = nullptr;
    spec::Readings now; // as the spec reads
    bool writable = true;
    double scaleStepG = 0.1; // what the house's scale tells apart
};

// Another thing poured for a line, with its water made up, and what that changes before anybody accepts it.
// By keyboard: type part of a name, the arrows walk the list, Enter accepts.
class StandInDialog : public QDialog {
    Q_OBJECT

  public:
    explicit StandInDialog(StandInAsk ask, QWidget* parent = nullptr);

    QLineEdit& filter() { return *m_filter; }
    QListWidget& list() { return *m_list; }
    QComboBox& keep() { return *m_keep; }
    QCheckBox& asMeasured() { return *m_asMeasured; }
    QTableWidget& changes() { return *m_changes; }
    QPushButton& acceptButton() { return *m_accept; }
    QString headline() const; // what is written
    QString beside() const;   // the same exactly, or as the jigger has it
    QString note() const;     // water and allergens, or why not

  Q_SIGNALS:
    void specAsked(const stillroom::spec::Spec& spec, const QString& what);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void fill();
    void onChosen();
    void onKeep();
    void showChanges();
    QString waterSentence() const;
    QString allergenSentences() const;
    QString lineName() const;
    QString pouredWords(const preparation::Substitution& found) const;

    StandInAsk m_ask;
    std::vector<preparation::StandIn> m_offers;
    std::vector<preparation::Keep> m_keeps;   // of the chosen one
    std::optional<preparation::Keep> m_asked; // what the person chose to keep
    std::optional<preparation::Substitution> m_found;
    QLineEdit* m_filter;
    QListWidget* m_list;
    QComboBox* m_keep;
    QCheckBox* m_asMeasured;
    WrapLabel* m_headline;
    WrapLabel* m_beside;
    QTableWidget* m_changes;
    WrapLabel* m_note;
    QPushButton* m_accept = nullptr;
};

} // namespace stillroom::ui
