#pragma once

#include "core/larder/larder.h"

#include <QLineEdit>

#include <vector>

class QCompleter;
class QStringListModel;

namespace stillroom::ui {

// Ingredients by name, with commas between them; names are offered while one types. A name that is none, or
// several, is framed and said; what is clear beside it counts.
class NamesEdit : public QLineEdit {
    Q_OBJECT

  public:
    explicit NamesEdit(QWidget* parent = nullptr);

    void setLarder(const larder::Larder* larder); // outlives it, or is set anew
    std::vector<base::IngredientId> ingredients() const;
    void setIngredients(const std::vector<base::IngredientId>& ids);
    QString problem() const; // "“rum” may be several: …"; empty: every name is clear

  Q_SIGNALS:
    void changed();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void read();
    void offer();
    void take(const QString& name);

    const larder::Larder* m_larder = nullptr;
    std::vector<base::IngredientId> m_ingredients;
    QString m_problem;
    QStringListModel* m_names;
    QCompleter* m_completer;
};

} // namespace stillroom::ui
