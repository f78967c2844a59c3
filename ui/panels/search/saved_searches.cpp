#include "ui/panels/search/saved_searches.h"

#include "ui/text/border.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

namespace {

constexpr int kMostRows = 5; // more of them scroll

} // namespace

SavedSearches::SavedSearches(QWidget* parent)
    : QWidget(parent),
      m_heading(new QLabel(tr("Saved searches"))),
      m_none(new WrapLabel),
      m_list(new QListWidget),
      m_name(new QLineEdit),
      m_save(new QPushButton(tr("Save"))) {
    m_heading->setBuddy(m_list);
    m_none->setText(tr("Ask for something, name it below, and it stands here."));
    m_list->setAccessibleName(tr("Saved searches: Enter runs one, Delete removes it"));
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setTextElideMode(Qt::ElideRight);
    m_list->setUniformItemSizes(true);
    m_list->installEventFilter(this);
    m_name->setAccessibleName(tr("Name for this search"));
    m_name->setPlaceholderText(tr("name for this search"));
    m_name->setMaxLength(120);
    m_save->setAutoDefault(false);
    auto* row = new QHBoxLayout;
    row->setObjectName(QStringLiteral("naming"));
    row->addWidget(m_name, 1);
    row->addWidget(m_save);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(m_heading);
    column->addWidget(m_none);
    column->addWidget(m_list);
    column->addLayout(row);
    connect(m_list, &QListWidget::itemActivated, this, [this] {
        if (const auto* search = current()) Q_EMIT runAsked(*search);
    });
    connect(m_name, &QLineEdit::textChanged, this, &SavedSearches::enable);
    const auto save = [this] {
        if (!m_save->isEnabled()) return;
        const QString name = m_name->text().trimmed();
        Q_EMIT saveAsked(name);
    };
    connect(m_name, &QLineEdit::returnPressed, this, save);
    connect(m_save, &QPushButton::clicked, this, save);
    show({});
    enable();
    dress();
}

const store::SavedSearch* SavedSearches::current() const {
    const int row = m_list->currentRow();
    return row < 0 || row >= static_cast<int>(m_searches.size()) ? nullptr
                                                                 : &m_searches[static_cast<std::size_t>(row)];
}

void SavedSearches::show(const std::vector<store::SavedSearch>& searches) {
    const int row = m_list->currentRow();
    m_searches = searches;
    m_list->clear();
    for (const auto& search : searches) {
        auto* item = new QListWidgetItem(fromCore(search.name), m_list);
        item->setToolTip(fromCore(search.name));
    }
    m_list->setCurrentRow(std::min(row, m_list->count() - 1));
    m_none->setVisible(searches.empty());
    m_list->setVisible(!searches.empty());
    dress();
}

void SavedSearches::setSavable(bool savable) {
    m_savable = savable;
    enable();
}

void SavedSearches::enable() {
    m_save->setEnabled(m_savable && !m_name->text().trimmed().isEmpty());
    m_name->setEnabled(m_savable);
}

bool SavedSearches::eventFilter(QObject* object, QEvent* event) {
    if (object == m_list && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const auto* search = current();
        if (key->key() == Qt::Key_Delete && search != nullptr) {
            const auto removed = *search;
            Q_EMIT removeAsked(removed);
            return true;
        }
        if ((key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) && search != nullptr) {
            const auto run = *search;
            Q_EMIT runAsked(run);
            return true;
        }
        if (key->key() == Qt::Key_Escape) {
            event->ignore();
            return false;
        }
    }
    if (object == m_list && event->type() == QEvent::FocusIn && m_list->currentRow() < 0)
        m_list->setCurrentRow(0);
    return QWidget::eventFilter(object, event);
}

void SavedSearches::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void SavedSearches::dress() {
    const auto& theme = Theme::current();
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_heading->setFont(theme.font(Type::Heading));
    m_heading->setPalette(quiet);
    m_none->setFont(theme.font(Type::Reason));
    m_none->setPalette(quiet);
    m_list->setFont(theme.font(Type::Line));
    layout()->setSpacing(theme.pxInt(4));
    for (int i = 0; i < m_list->count(); ++i)
        m_list->item(i)->setSizeHint(QSize(theme.pxInt(80), theme.pxInt(28)));
    m_list->setFixedHeight(theme.pxInt(28) * std::clamp(m_list->count(), 1, kMostRows) + theme.pxInt(2));
}

} // namespace stillroom::ui
