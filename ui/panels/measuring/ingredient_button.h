#pragma once

#include "core/larder/larder.h"

#include <QWidget>

#include <functional>

class QLabel;
class QPushButton;

namespace stillroom::ui {

// One thing of the larder, by name, and the key that chooses another.
class IngredientButton : public QWidget {
    Q_OBJECT

  public:
    // `words`: "&Measured on", with its mnemonic.
    explicit IngredientButton(const QString& words, QWidget* parent = nullptr);

    // The larder outlives the button. `offered`: which of its things can be chosen; empty: all.
    void setLarder(const larder::Larder* larder, std::function<bool(const larder::Ingredient&)> offered = {});
    void choose(std::optional<base::IngredientId> ingredient); // tells nobody
    std::optional<base::IngredientId> chosen() const { return m_chosen; }
    QPushButton& button() { return *m_button; }
    void refresh();         // the larder may be another
    QString asText() const; // "Measured on: lime juice"

  Q_SIGNALS:
    void picked(base::IngredientId ingredient);

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void open();
    void dress();

    const larder::Larder* m_larder = nullptr;
    std::function<bool(const larder::Ingredient&)> m_offered;
    std::optional<base::IngredientId> m_chosen;
    QString m_words;
    QLabel* m_label;
    QPushButton* m_button;
};

} // namespace stillroom::ui
