#pragma once

#include "core/spec/calibration.h"

#include <QDialog>

#include <vector>

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QPushButton;

namespace stillroom::ui {

class NumberEdit;

// How a drink was really made: the water it took up, as weighed or read, and the ice, vessel and glass that a
// prediction asks for. Everything may stay empty; nothing is taken for zero. Accepted, it is one new spec.
class MadeDialog : public QDialog {
    Q_OBJECT

  public:
    MadeDialog(const spec::Spec& spec, const larder::Larder& larder, const spec::HouseRules& rules,
               QWidget* parent = nullptr);

    NumberEdit& before() { return *m_before; }
    NumberEdit& strained() { return *m_strained; }
    NumberEdit& strainedMl() { return *m_strainedMl; }
    NumberEdit& onIce() { return *m_onIce; }
    NumberEdit& iceGrams() { return *m_iceGrams; }
    NumberEdit& iceC() { return *m_iceC; }
    QPushButton& backToPredicted() { return *m_predicted; }
    QPushButton& ok() { return *m_ok; }
    QString water() const;  // the live line
    QString source() const; // where it comes from
    QString note() const;   // why it cannot be taken as it stands; empty when it can

  Q_SIGNALS:
    void saveAsked(const stillroom::spec::Spec& spec);

  private:
    void addMeasured(QFormLayout& form);
    void addIce(QFormLayout& form);
    void addGlass(QFormLayout& form);
    void addField(QFormLayout& form, const QString& words, const QString& unit, NumberEdit* edit);
    void check();
    void forgetMeasured();
    QString whyNot() const;         // of everything but the measured water
    QString whyNotMeasured() const; // of that
    bool anythingMeasured() const;
    std::optional<spec::DilutionEntry> measured() const;
    spec::Spec written() const; // as the fields stand

    spec::Spec m_spec;
    spec::Bindings m_bindings;
    bool m_clear = false; // what stood there is taken back
    std::vector<NumberEdit*> m_edits;
    NumberEdit* m_before;
    NumberEdit* m_strained;
    NumberEdit* m_strainedMl;
    NumberEdit* m_onIce;
    QPushButton* m_predicted;
    NumberEdit* m_iceGrams;
    NumberEdit* m_iceC;
    NumberEdit* m_iceWet;
    NumberEdit* m_drinks;
    QComboBox* m_vessel;
    NumberEdit* m_vesselGrams;
    NumberEdit* m_startC;
    QComboBox* m_model;
    NumberEdit* m_glassGrams;
    QCheckBox* m_preheated;
    NumberEdit* m_iceInGlass;
    QLabel* m_water;
    QLabel* m_source;
    QLabel* m_note;
    QPushButton* m_ok;
};

} // namespace stillroom::ui
