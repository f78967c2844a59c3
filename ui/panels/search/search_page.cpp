#include "ui/panels/search/search_page.h"

#include "ui/panels/search/filter_form.h"
#include "ui/panels/search/results_list.h"
#include "ui/panels/search/results_model.h"
#include "ui/panels/search/saved_searches.h"
#include "ui/panels/search/search_reading.h"
#include "ui/panels/search/search_words.h"
#include "ui/session/workbook_session.h"
#include "ui/text/border.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void setInk(QWidget* widget, Token token) {
    auto palette = widget->palette();
    palette.setColor(QPalette::WindowText, Theme::current().color(token));
    widget->setPalette(palette);
}

} // namespace

SearchPage::SearchPage(WorkbookSession& book, SearchReading& reading, Attempt attempt, QWidget* parent)
    : QWidget(parent),
      m_book(book),
      m_reading(reading),
      m_attempt(std::move(attempt)),
      m_title(new QLabel(tr("Search"))),
      m_words(new QLineEdit),
      m_banner(new Banner),
      m_left(new QWidget),
      m_leftScroll(new QScrollArea),
      m_head(new QHBoxLayout),
      m_filters(new FilterForm),
      m_saved(new SavedSearches),
      m_found(new QLabel),
      m_read(new WrapLabel),
      m_unread(new WrapLabel),
      m_empty(new WrapLabel),
      m_model(new ResultsModel(this)),
      m_list(new ResultsList),
      m_divide(new QWidget) {
    setAccessibleName(tr("Search"));
    setWindowTitle(tr("Search"));
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    setProperty("keyHints", QStringList{tr("Enter"), tr("open the drink"), u"↓"_s, tr("to what was found"),
                                        tr("Ctrl+F"), tr("other words")});
    m_words->setAccessibleName(tr("Words to look for"));
    m_words->setPlaceholderText(tr("words of a name, a line, a note, a reason…"));
    m_words->setClearButtonEnabled(true);
    m_words->installEventFilter(this);
    m_list->setAccessibleName(tr("Found drinks"));
    m_list->setModel(m_model);
    m_empty->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    m_divide->setAutoFillBackground(true);
    m_divide->setBackgroundRole(QPalette::Mid);

    m_leftColumn = new QVBoxLayout(m_left);
    m_leftColumn->addWidget(m_filters);
    m_leftColumn->addWidget(m_saved);
    m_leftColumn->addStretch(1);
    m_left->setBackgroundRole(QPalette::Base);
    m_leftScroll->setWidget(m_left);
    m_leftScroll->setWidgetResizable(true);
    m_leftScroll->setFrameShape(QFrame::NoFrame);
    m_leftScroll->setFocusPolicy(Qt::NoFocus);
    m_leftScroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_leftScroll->viewport()->setBackgroundRole(QPalette::Base);
    m_leftScroll->viewport()->setAutoFillBackground(true);

    m_head->addWidget(m_title);
    m_head->addWidget(m_words, 1);
    m_toldLayout = new QVBoxLayout;
    m_toldLayout->addWidget(m_found);
    m_toldLayout->addWidget(m_read);
    m_toldLayout->addWidget(m_unread);
    auto* right = new QVBoxLayout;
    right->setContentsMargins(0, 0, 0, 0);
    right->setSpacing(0);
    right->addLayout(m_head);
    right->addWidget(m_banner);
    right->addLayout(m_toldLayout);
    right->addWidget(m_empty, 1);
    right->addWidget(m_list, 1);
    auto* all = new QHBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addWidget(m_leftScroll);
    all->addWidget(m_divide);
    all->addLayout(right, 1);
    m_banner->hide();
    setFocusProxy(m_words);
    setTabOrder(m_words, m_list);

    m_filters->setBook(book.settings(), book.larder());
    connect(m_words, &QLineEdit::textChanged, this, [this](const QString& text) {
        m_request.words = toCore(text);
        search();
    });
    connect(m_filters, &FilterForm::changed, this, [this] {
        m_request.filters = m_filters->filters();
        search();
    });
    connect(m_list, &QListView::activated, this, &SearchPage::openCurrent);
    connect(m_list, &ResultsList::leftUp, m_words, [this] { m_words->setFocus(Qt::BacktabFocusReason); });
    connect(m_model, &ResultsModel::fetched, this, &SearchPage::tell);
    connect(m_saved, &SavedSearches::runAsked, this, [this](const store::SavedSearch& saved) {
        ask(saved.request);
        m_words->setFocus(Qt::OtherFocusReason);
        Q_EMIT said(tr("“%1” was asked again.").arg(fromCore(saved.name)));
    });
    connect(m_saved, &SavedSearches::saveAsked, this, &SearchPage::save);
    connect(m_saved, &SavedSearches::removeAsked, this, &SearchPage::remove);
    connect(m_banner, &Banner::actTriggered, this, [this] {
        const auto act = std::exchange(m_bannerAct, {});
        m_banner->show(BannerKind::Gap, {});
        if (act) act();
    });
    // What was not read yet is looked through as it comes.
    const auto again = [this] {
        if (m_model->answer().unread > 0) search(true);
    };
    connect(&reading, &SearchReading::moved, this, again);
    connect(&reading, &SearchReading::done, this, again);
    reloadSaved();
    dress();
    search();
}

void SearchPage::ask(const store::SearchRequest& request) {
    m_request = request;
    {
        const QSignalBlocker quiet(m_words);
        m_words->setText(fromCore(request.words));
    }
    m_filters->setFilters(request.filters);
    search();
}

void SearchPage::search(bool keep) {
    Q_EMIT asked(m_request);
    const bool anything =
        !QString(fromCore(m_request.words)).trimmed().isEmpty() || !m_request.filters.isEmpty();
    m_saved->setSavable(anything && !m_book.book().isReadOnly());
    if (!anything) {
        m_model->clear();
        tell();
        return;
    }
    const auto at = m_list->currentIndex();
    const auto chosen = keep && at.isValid() ? std::optional(m_model->row(at.row()).drink) : std::nullopt;
    m_model->show(
        &m_book,
        [this](int atMost) -> std::optional<store::SearchAnswer> {
            std::optional<store::SearchAnswer> answer;
            m_attempt([&] { answer = m_book.book().search(m_request, atMost); });
            return answer;
        },
        keep);
    const int row = chosen ? m_model->rowOf(*chosen) : -1;
    m_list->goTo(row >= 0 ? row : 0);
    tell();
}

QString SearchPage::told() const {
    QStringList all;
    for (const auto* label : {m_found, m_read, m_unread})
        if (!label->isHidden()) all << label->text();
    return all.join(u' ');
}

QString SearchPage::emptyText() const {
    return m_empty->isHidden() ? QString() : m_empty->text();
}

void SearchPage::tell() {
    const auto& answer = m_model->answer();
    const bool anything =
        !QString(fromCore(m_request.words)).trimmed().isEmpty() || !m_request.filters.isEmpty();
    const auto say = [](QLabel* label, const QString& text) {
        label->setText(text);
        label->setVisible(!text.isEmpty());
    };
    say(m_found, anything ? foundWords(answer, static_cast<std::size_t>(m_model->rowCount())) : QString());
    say(m_read, readAsWords(answer));
    say(m_unread, stillReadingWords(answer.unread, static_cast<int>(m_book.shelf().size()),
                                    m_book.book().isReadOnly() && m_reading.isDone()));
    const bool empty = m_model->rowCount() == 0;
    m_list->setVisible(!empty);
    m_empty->setVisible(empty);
    if (!empty) return;
    m_empty->setText(
        anything
            ? nothingFoundWords(m_request)
            : tr("Type what you remember: words of a name, a brief, a line, a note, a reason, a tag, or of "
                 "what "
                 "a taster said. The beginning of a word is enough; accents and slips of the finger are "
                 "forgiven. Several words must all be there.\n\n"
                 "Or ask on the left: from 14 to 18 % vol, under 3.50 a serve, with mezcal and without egg, "
                 "surely free of nuts, changed since the first of the month, or called too sweet.\n\n"
                 "A name given to what you asked keeps it for another day."));
}

void SearchPage::openCurrent() {
    const auto at = m_list->currentIndex();
    if (!at.isValid()) return;
    const auto& row = m_model->row(at.row());
    Q_EMIT openAsked(row.drink, row.revision);
}

void SearchPage::reloadSaved() {
    std::vector<store::SavedSearch> saved;
    if (m_attempt([&] { saved = m_book.book().savedSearches(); })) m_saved->show(saved);
}

void SearchPage::save(const QString& name) {
    store::SavedSearch search;
    search.name = toCore(name);
    search.request = m_request;
    // The same name again is the same search, asked otherwise.
    bool changed = false;
    const bool saved = m_attempt([&] {
        for (const auto& known : m_book.book().savedSearches())
            if (known.name == search.name) search.id = known.id;
        changed = !search.id.isNull();
        m_book.book().saveSearch(search);
    });
    if (!saved) return;
    m_saved->name().clear();
    reloadSaved();
    Q_EMIT said(changed ? tr("“%1” asks for this from now on.").arg(name) : tr("Saved as “%1”.").arg(name));
}

void SearchPage::remove(const store::SavedSearch& search) {
    if (m_book.book().isReadOnly()) {
        Q_EMIT said(tr("The book is open to read only."));
        return;
    }
    if (!m_attempt([&] { m_book.book().removeSavedSearch(search.id); })) return;
    reloadSaved();
    m_bannerAct = [this, search] {
        auto again = search;
        again.id = {};
        if (m_attempt([&] { m_book.book().saveSearch(again); })) reloadSaved();
    };
    m_banner->show(BannerKind::Gap, {tr("The search “%1” is removed.").arg(fromCore(search.name)),
                                     tr("No drink was touched."), tr("Undo")});
}

bool SearchPage::eventFilter(QObject* object, QEvent* event) {
    if (object != m_words || event->type() != QEvent::KeyPress) return QWidget::eventFilter(object, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    switch (key->key()) {
    case Qt::Key_Down:
    case Qt::Key_PageDown:
        if (m_model->rowCount() > 0) {
            // The first is chosen already: down means the one after it.
            m_list->setFocus(Qt::TabFocusReason);
            if (m_list->currentIndex().row() == 0) m_list->goTo(std::min(1, m_model->rowCount() - 1));
        }
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        openCurrent();
        return true;
    case Qt::Key_Escape:
        if (m_words->text().isEmpty()) return false;
        m_words->clear();
        return true;
    default:
        return false;
    }
}

void SearchPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void SearchPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    dress();
}

void SearchPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void SearchPage::dress() {
    const auto& theme = Theme::current();
    m_leftScroll->setFixedWidth(std::clamp(width() * 30 / 100, theme.pxInt(290), theme.pxInt(360)));
    m_leftColumn->setContentsMargins(theme.pxInt(16), theme.pxInt(14), theme.pxInt(16), theme.pxInt(12));
    m_leftColumn->setSpacing(theme.pxInt(18));
    m_divide->setFixedWidth(1);
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(4));
    m_head->setSpacing(theme.pxInt(14));
    m_title->setFont(theme.font(Type::Title));
    setInk(m_title, Token::Ink);
    m_words->setFont(theme.font(Type::Line));
    m_words->setFixedHeight(theme.pxInt(32));
    m_toldLayout->setContentsMargins(theme.pxInt(16), theme.pxInt(2), theme.pxInt(16), theme.pxInt(6));
    m_toldLayout->setSpacing(theme.pxInt(2));
    for (auto* label : {m_found, m_read, m_unread}) {
        label->setFont(theme.font(Type::Control));
        setInk(label, Token::Ink2);
    }
    m_empty->setFont(theme.font(Type::Body));
    setInk(m_empty, Token::Ink2);
    // Never wider than some 72 letters.
    const int room = width() - m_leftScroll->width() - theme.pxInt(600);
    m_empty->setContentsMargins(theme.pxInt(16), theme.pxInt(12), std::max(theme.pxInt(16), room), 0);
}

} // namespace stillroom::ui
