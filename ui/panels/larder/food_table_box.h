#pragma once

#include "core/base/id.h"

#include <QWidget>

#include <array>
#include <map>

class QLabel;

namespace stillroom::ui {

class LarderEdit;
class NumberEdit;

// What a food table says of the chosen liquid, held against its strength: some tables print a sweet liqueur
// with the alcohol of a spirit that has no sugar in it. Nothing is stored; what is typed stays while the page
// is open.
class FoodTableBox : public QWidget {
    Q_OBJECT

  public:
    explicit FoodTableBox(QWidget* parent = nullptr);

    void setEdit(LarderEdit* edit);
    NumberEdit& alcohol() { return *m_fields[0]; }
    NumberEdit& sugar() { return *m_fields[1]; }
    NumberEdit& weighs() { return *m_fields[2]; }
    QString words() const;
    bool isDoubtful() const { return m_doubtful; }

  Q_SIGNALS:
    void doubtChanged();
    void leaveAsked();

  protected:
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void fill();
    void judge();
    void dress();

    LarderEdit* m_edit = nullptr;
    QLabel* m_title;
    std::array<QLabel*, 3> m_captions{};
    std::array<NumberEdit*, 3> m_fields{};
    QLabel* m_words;
    std::map<base::IngredientId, std::array<QString, 3>> m_typed;
    base::IngredientId m_shown;
    bool m_doubtful = false;
};

} // namespace stillroom::ui
