#pragma once

#include "core/larder/ingredient.h"
#include "core/preparation/part_dates.h"
#include "ui/session/draft_session.h"

#include <QDialog>

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;

namespace stillroom::ui {

class NumberEdit;

// What a batch of a preparation comes to before it is made, and what came of it afterwards.
struct BatchAsk {
    base::IngredientId ingredient;
    QString name;
    spec::Spec spec;
    const spec::Bindings* bindings = nullptr; // outlives the dialog
    preparation::Made made;
    preparation::Keeping keeping;
    std::optional<base::RevisionId> madeFrom;
    std::vector<preparation::PartDate> parts; // what stands on the shelf of them
    quantity::Mass scaleStep;
    std::string today;
    bool writable = true;
};

class BatchDialog : public QDialog {
    Q_OBJECT

  public:
    explicit BatchDialog(BatchAsk ask, QWidget* parent = nullptr);

    NumberEdit& times() { return *m_times; }
    NumberEdit& outputMl() { return *m_outputMl; }
    NumberEdit& have() { return *m_have; }
    QComboBox& haveLine() { return *m_haveLine; }
    QPushButton& smallest() { return *m_smallest; }
    QTableWidget& lines() { return *m_lines; }
    NumberEdit& gotMl() { return *m_gotMl; }
    QLineEdit& madeOn() { return *m_madeOn; }
    QPushButton& keep() { return *m_keep; }
    QPushButton& take() { return *m_take; }
    QString comesTo() const;
    QString note() const;
    QString useBy() const;
    double factor() const { return m_factor; }

  Q_SIGNALS:
    void lotAsked(const stillroom::larder::Lot& lot, bool inUse);
    void specAsked(const stillroom::spec::Spec& spec);

  private:
    void setFactor(std::optional<double> factor, const QWidget* typed);
    void refresh();
    std::optional<std::string> lastDay(const std::string& madeOn) const;
    std::optional<larder::Lot> lot() const;

    BatchAsk m_ask;
    double m_factor = 1;
    bool m_sound = true;
    NumberEdit* m_times;
    NumberEdit* m_outputMl;
    NumberEdit* m_outputG;
    QComboBox* m_haveLine;
    NumberEdit* m_have;
    QLabel* m_haveUnit;
    QPushButton* m_smallest;
    QTableWidget* m_lines;
    QLabel* m_comesTo;
    QLineEdit* m_madeOn;
    NumberEdit* m_gotMl;
    NumberEdit* m_strength;
    QLineEdit* m_lotNote;
    QCheckBox* m_inUse;
    QLabel* m_useBy;
    QLabel* m_note;
    QPushButton* m_keep;
    QPushButton* m_take;
};

} // namespace stillroom::ui
