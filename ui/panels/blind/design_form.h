#pragma once

#include "ui/panels/blind/blind_desk.h"

#include <QWidget>

#include <array>

class QButtonGroup;
class QCheckBox;
class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QSpinBox;
class QTimer;
class QVBoxLayout;

namespace stillroom::ui {

// What a session asks, of what and of whom; and, as one chooses, what it can show at all.
class DesignForm : public QWidget {
    Q_OBJECT

  public:
    explicit DesignForm(BlindDesk& desk, QWidget* parent = nullptr);

    QButtonGroup& kinds() { return *m_kinds; }
    QListWidget& products() { return *m_products; }
    QListWidget& tasters() { return *m_tasters; }
    QLineEdit& name() { return *m_name; }
    QLineEdit& attribute() { return *m_attribute; }
    QLineEdit& person() { return *m_person; }
    QLineEdit& seed() { return *m_seed; }
    QCheckBox& foretold() { return *m_foretold; }
    QComboBox& level() { return *m_level; }
    QSpinBox& share() { return *m_share; }
    QPushButton& dealButton() { return *m_deal; }
    QString planWords() const;
    void refresh(); // after a revision was kept or chosen
    void focusFirst();

  Q_SIGNALS:
    void addProductAsked();
    void dealt(stillroom::base::PanelId panel);
    void refused(const QString& why);
    void left();

  protected:
    bool eventFilter(QObject* object, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    QWidget* makeQuestion();
    QWidget* makeCups();
    QWidget* makePlan();
    void fillProducts();
    void fillTasters();
    void readTasters();
    void addPerson();
    void showKind();
    void planChanged();
    void showPlan();
    void deal();
    void place();

    BlindDesk& m_desk;
    QGridLayout* m_grid;
    std::array<QWidget*, 3> m_parts{}; // question, cups, plan
    std::optional<bool> m_narrow;
    QLineEdit* m_name;
    QButtonGroup* m_kinds;
    QLabel* m_attributeLabel;
    QLineEdit* m_attribute;
    QCheckBox* m_foretold;
    QListWidget* m_products;
    QPushButton* m_add;
    QLabel* m_tastersLabel;
    QListWidget* m_tasters;
    QLineEdit* m_person;
    QComboBox* m_level;
    QSpinBox* m_share;
    QLineEdit* m_seed;
    QWidget* m_planBox;
    QVBoxLayout* m_plan = nullptr; // the last to be made: without it nothing is shown
    QPushButton* m_deal;
    QTimer* m_later;
    bool m_filling = false;
};

} // namespace stillroom::ui
